import { type Attributes, type Svg, svgElement, svgText } from './svg.ts'
import { type Box, lineMm, mmOf } from './word-box.ts'

const BASELINE = 0.36 // of the line's height, below its middle, in type sizes
const COVER_MM = 0.6

/** Words in their box; on a cover of white where lines run behind them. */
export function wordsIn({ lines, sizePt, isBold, x1, x2, y1, y2 }: Box, top: number, isCovering = false): Svg[] {
  const weight: Attributes = isBold ? { 'font-weight': 'bold' } : {}
  const cover = { x: x1 - COVER_MM, y: top + y1, width: x2 - x1 + 2 * COVER_MM, height: y2 - y1, fill: 'white' }
  const pitch = lineMm(sizePt)
  return [
    ...(isCovering ? [svgElement('rect', cover)] : []),
    ...lines.map((text, i) =>
      svgElement(
        'text',
        {
          x: x1,
          y: top + y1 + (i + 0.5) * pitch + BASELINE * mmOf(sizePt),
          'font-size': mmOf(sizePt),
          fill: 'currentColor',
          ...weight,
        },
        svgText(text),
      ),
    ),
  ]
}
