import type { Station } from '../tours/night.ts'
import type { Words } from '../words/words.ts'
import type { TimeScale } from './score-time.ts'
import { type Box, boxAt, lineMm, textIn, USUAL_PT } from './word-box.ts'

/** What a staff may take at its left for the names of station and telescope. */
export const LABEL_MM = 54

/** What is said on a staff without stops. */
export function saidOf(station: Station, bodyMm: number, scale: TimeScale, words: Words): Box {
  const code = station.kind !== 'telescope' ? `score.beside-${station.kind}` : 'score.no-stops'
  const text = textIn(words.say(code), scale.rightMm - scale.leftMm - 16, USUAL_PT)
  return boxAt(text, scale.leftMm + 8, (bodyMm - text.lines.length * lineMm(USUAL_PT)) / 2)
}

/** The name of the station and beneath it the telescope's, once where they are the same, beside the middle of the five lines. */
export function labelOf({ name, kind, telescope }: Station, bodyMm: number, words: Words): Box[] {
  const under = telescope?.name ?? words.say(kind === 'telescope' ? 'score.no-telescope' : `station.${kind}`)
  const texts = [textIn(name, LABEL_MM, USUAL_PT, true)]
  if (under !== name) texts.push(textIn(under, LABEL_MM, USUAL_PT))
  const highMm = texts.reduce((sum, { lines }) => sum + lines.length * lineMm(USUAL_PT), 0)
  let y = (bodyMm - highMm) / 2
  return texts.map((text) => {
    const box = boxAt(text, 0, y)
    y = box.y2
    return box
  })
}
