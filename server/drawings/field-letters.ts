import { FIELD_LETTERS, LETTER_PX } from './field-paper.ts'
import { lineEm, linesOf } from './letter-widths.ts'
import { type Svg, svgElement, svgText } from './svg.ts'

/** How long a text is in the letters of a field, at most. */
export const textPx = (text: string): number => LETTER_PX * lineEm(text)

/** A text broken into lines no longer than so many units. */
export const brokenLines = (text: string, widePx: number): readonly string[] => linesOf(text, widePx / LETTER_PX)

/** Entries one after the other, in lines no longer than so many units; none is broken that fits a line. */
export function entryLines(entries: readonly string[], widePx: number): readonly string[] {
  const lines: string[] = []
  for (const entry of entries) {
    const last = lines.at(-1)
    if (last !== undefined && textPx(`${last}, ${entry},`) <= widePx) lines[lines.length - 1] = `${last}, ${entry}`
    else lines.push(entry)
  }
  return lines.map((line, i) => (i < lines.length - 1 ? `${line},` : line))
}

export const fieldText = (
  x: number,
  y: number,
  text: string,
  anchor: 'start' | 'middle' | 'end' = 'start',
  more: Readonly<Record<string, string | number>> = {},
): Svg => svgElement('text', { x, y, 'text-anchor': anchor, ...FIELD_LETTERS, ...more }, svgText(text))

/** Makes letters readable over dots and lines: a white rim under them. */
export const OVER_DOTS = { stroke: 'white', 'stroke-width': 5, 'paint-order': 'stroke', 'stroke-linejoin': 'round' }
