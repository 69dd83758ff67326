import { lineEm, linesOf } from './letter-widths.ts'

const MM_PER_PT = 25.4 / 72
/** Letters of a sheet that is read in the field, and the smallest ones that a name may have. */
export const USUAL_PT = 14
export const LEAST_PT = 12
const LARGE_PT = 17
export const mmOf = (sizePt: number): number => sizePt * MM_PER_PT
/** From one line of words to the next. */
export const lineMm = (sizePt: number): number => 1.2 * mmOf(sizePt)

/** Words in lines, not yet placed. */
export interface Text {
  readonly lines: readonly string[]
  readonly sizePt: number
  readonly isBold: boolean
}

/** Words on the sheet with the room that they take, in millimetres. */
export interface Box extends Text {
  readonly x1: number
  readonly x2: number
  readonly y1: number
  readonly y2: number
}

/** How wide the widest of the lines is. */
export const widthMm = ({ lines, sizePt, isBold }: Text): number =>
  Math.max(...lines.map((line) => lineEm(line, isBold))) * mmOf(sizePt)

/** A text in lines that are no wider than the room. */
export const textIn = (text: string, roomMm: number, sizePt: number, isBold = false): Text => ({
  lines: linesOf(text, roomMm / mmOf(sizePt), isBold),
  sizePt,
  isBold,
})

/** The room of a text whose upper left corner is there. */
export const boxAt = (text: Text, x1: number, y1: number): Box => ({
  ...text,
  x1,
  x2: x1 + widthMm(text),
  y1,
  y2: y1 + text.lines.length * lineMm(text.sizePt),
})

/**
 * A name set on a bar: in one line of large letters, in one line or two of the usual ones, in one line beyond the bar's end
 * where nothing follows, or in smaller letters; null where it does not fit without being broken.
 */
export function textOnBar(name: string, barMm: number, beyondMm: number): Text | null {
  const tries = [
    [barMm, LARGE_PT, 1],
    [barMm, USUAL_PT, 2],
    [beyondMm, USUAL_PT, 1],
    [barMm, 13, 2],
    [barMm, LEAST_PT, 2],
  ] as const
  for (const [roomMm, sizePt, most] of tries) {
    const text = textIn(name, roomMm, sizePt, true)
    const isWhole = text.lines.join(' ') === name.trim().replace(/\s+/g, ' ')
    if (isWhole && text.lines.length <= most && widthMm(text) <= roomMm) return text
  }
  return null
}

/** True when two boxes have room in common, or less air between them than asked. */
export const overlaps = (a: Room, b: Room, airMm = 0): boolean =>
  a.x1 < b.x2 + airMm && b.x1 < a.x2 + airMm && a.y1 < b.y2 + airMm && b.y1 < a.y2 + airMm

type Room = Pick<Box, 'x1' | 'x2' | 'y1' | 'y2'>
