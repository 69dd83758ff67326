import { encodeQR } from 'qr'
import { type Svg, svgElement, svgText } from './svg.ts'

/** Light modules around the code, as its standard asks for. */
const QUIET = 4

/** A QR code of level M, black on white in every look, one unit a module; `label` is what it is called and never holds a secret. */
export function qrCode(text: string, label: string): Svg {
  const rows = encodeQR(text, 'raw', { ecc: 'medium', border: QUIET })
  const side = rows.length
  return svgElement(
    'svg',
    {
      viewBox: `0 0 ${side} ${side}`,
      role: 'img',
      'shape-rendering': 'crispEdges',
      xmlns: 'http://www.w3.org/2000/svg',
    },
    svgElement('title', {}, svgText(label)),
    svgElement('rect', { width: side, height: side, fill: '#ffffff' }),
    svgElement('path', { d: rows.map(runsOf).join(''), fill: '#000000' }),
  )
}

/** The dark modules of a row, each run of them as one bar. */
function runsOf(row: readonly boolean[], y: number): string {
  const starts = row.flatMap((isDark, x) => (isDark && !row[x - 1] ? [x] : []))
  return starts.map((x) => `M${x} ${y}h${runLength(row, x)}v1H${x}z`).join('')
}

function runLength(row: readonly boolean[], from: number): number {
  const end = row.indexOf(false, from)
  return (end < 0 ? row.length : end) - from
}
