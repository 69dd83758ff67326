import { nightHours } from '../tours/hours.ts'
import { sunTonight } from '../tours/sun-tonight.ts'
import type { Words } from '../words/words.ts'
import type { ScoreSubject } from './score.ts'
import { LABEL_MM } from './score-said.ts'
import { halfHours, type Moment, momentsOf, type TimeScale } from './score-time.ts'
import { type Box, boxAt, lineMm, type Text, textIn, USUAL_PT, widthMm } from './word-box.ts'
import { placeAll } from './word-lanes.ts'

/** A line across all staves, with its words and time at the top. */
export interface BarLine extends Moment {
  readonly x: number
  readonly word: Box
}

/** An hour or a half hour of the site's clocks; a half hour is named where there is room. */
export interface Tick {
  readonly at: Date
  readonly x: number
  readonly isHour: boolean
  readonly word: Box | null
}

export interface DrawnHead {
  readonly barLines: readonly BarLine[]
  readonly ticks: readonly Tick[]
  /** Date, scale and what else a reader of this sheet must know. */
  readonly about: readonly Box[]
  readonly highMm: number
}

const LANE_MM = lineMm(USUAL_PT)
const AXIS_MM = LANE_MM + 2
const BETWEEN_TIMES_MM = 2
const INTO_LABELS_MM = 3

/** What stands above the staves. `sheet` is its number, where there are more than one. */
export function headOf(subject: ScoreSubject, words: Words, scale: TimeScale, sheet: string | null): DrawnHead {
  const { zone } = subject.night.site
  const moments = momentsOf(subject.night, subject.evening, scale)
  const texts = moments.map(
    ({ code, at }): Text => ({
      lines: [words.say(`score.${code}`), words.time(at, zone)],
      sizePt: USUAL_PT,
      isBold: false,
    }),
  )
  const places = placeAll(
    texts.map((text, i) => ({
      x: scale.xOf(moments[i]?.at ?? scale.fromAt),
      widthMm: widthMm(text),
      lines: text.lines.length,
      sides: ['above'],
    })),
    { leftMm: scale.leftMm, rightMm: subject.widthMm },
  )
  const lanes = Math.max(0, ...places.map(({ lane, lines }) => lane + lines - 1))
  const aboutTexts = aboutOf(subject, words, scale, sheet)
  const aboutMm = aboutTexts.reduce((sum, { lines }) => sum + lines.length * LANE_MM, 0)
  const highMm = Math.max(aboutMm, lanes * LANE_MM + AXIS_MM)
  const barLines = moments.flatMap((moment, i): BarLine[] => {
    const [text, place] = [texts[i], places[i]]
    if (!text || !place) return []
    const y1 = highMm - AXIS_MM - (place.lane + place.lines - 1) * LANE_MM
    return [{ ...moment, x: place.x, word: boxAt(text, place.x1, y1) }]
  })
  return { barLines, ticks: ticksOf(subject, words, scale, highMm), about: stacked(aboutTexts), highMm }
}

function aboutOf(subject: ScoreSubject, words: Words, { mmPerHour }: TimeScale, sheet: string | null): Text[] {
  const { evening, night, stops } = subject
  const sun = sunTonight(night.site, evening, nightHours(night).opensAt)
  const said = [
    words.date(night.date),
    words.say('score.scale', { mm: words.number(mmPerHour) }),
    ...(sheet === null ? [] : [sheet]),
    ...(stops.some(({ setups }) => setups.length > 1) ? [words.say('score.two-looks')] : []),
    ...(sun === 'sets' ? [] : [words.say(`score.sun-${sun}`)]),
    ...(sun === 'sets' && evening.astronomicalDuskAt === null ? [words.say('score.twilight')] : []),
  ]
  return said.map((text, i) => textIn(text, LABEL_MM, USUAL_PT, i === 0))
}

function stacked(texts: readonly Text[]): Box[] {
  let y = 0
  return texts.map((text) => {
    const box = boxAt(text, 0, y)
    y = box.y2
    return box
  })
}

function ticksOf(subject: ScoreSubject, words: Words, scale: TimeScale, highMm: number): Tick[] {
  const { zone } = subject.night.site
  const all = halfHours(zone, scale)
  const boxes = all.map(({ at }): Box => {
    const text: Text = { lines: [words.time(at, zone)], sizePt: USUAL_PT, isBold: true }
    const wide = widthMm(text)
    const x1 = Math.max(scale.leftMm - INTO_LABELS_MM, scale.xOf(at) - wide / 2)
    return boxAt(text, Math.min(x1, subject.widthMm - wide), highMm - AXIS_MM + 0.5)
  })
  const widest = Math.max(0, ...boxes.map(({ x1, x2 }) => x2 - x1)) + BETWEEN_TIMES_MM
  const every = Math.max(1, Math.ceil(widest / scale.mmPerHour))
  const firstHour = all.findIndex(({ isHour }) => isHour)
  const isNamed = (isHour: boolean, i: number): boolean =>
    isHour ? ((i - firstHour) / 2) % every === 0 : scale.mmPerHour / 2 > widest
  return all.map(({ at, isHour }, i) => ({
    at,
    x: scale.xOf(at),
    isHour,
    word: isNamed(isHour, i) ? (boxes[i] ?? null) : null,
  }))
}
