import type { Words } from '../words/words.ts'
import { linesOf } from './letter-widths.ts'
import { LETTER_PX, LETTERS, LINE_PX } from './sky-chart-letters.ts'
import { CENTRE_X, CENTRE_Y, FOOT_Y, RADIUS, WIDTH } from './sky-chart-paper.ts'
import { dotPx } from './sky-chart-stars.ts'
import { type Svg, svgElement, svgText } from './svg.ts'

const TITLE_Y = 32
const TITLE_PX = 30
/** What the three dots of the scale of brightness stand for. */
const SCALE = [
  ['bright', 0.5],
  ['middling', 2.5],
  ['faint', 4],
] as const

/** Date and hour over the circle. */
export const chartTitle = (title: string): Svg =>
  svgElement(
    'text',
    {
      x: CENTRE_X,
      y: TITLE_Y,
      'text-anchor': 'middle',
      fill: 'currentColor',
      'font-size': TITLE_PX,
      'font-weight': 'bold',
    },
    svgText(title),
  )

/** Three dots with words in the left corner under the circle. */
export const brightnessScale = (words: Words): Svg[] =>
  SCALE.flatMap(([code, magnitude], index) => {
    const y = FOOT_Y - 2 * LINE_PX + index * LINE_PX - 6
    return [
      svgElement('circle', { cx: 10, cy: y - 7, r: dotPx(magnitude), fill: 'currentColor' }),
      svgElement('text', { x: 26, y, ...LETTERS }, svgText(words.say(`sky-chart.${code}`))),
    ]
  })

/** How long a fist at arm's length, ten degrees, is from the edge towards the middle. */
const FIST_PX = RADIUS / 9

export function fistBar(words: Words): Svg[] {
  const [right, y] = [WIDTH - 6, FOOT_Y - LINE_PX - 22]
  const left = right - FIST_PX
  return [
    svgElement('path', {
      d: `M${left.toFixed(2)} ${y - 7}v14M${left.toFixed(2)} ${y}H${right}M${right} ${y - 7}v14`,
      fill: 'none',
      stroke: 'currentColor',
      'stroke-width': 2,
    }),
    svgElement('text', { x: right, y: y + 36, 'text-anchor': 'end', ...LETTERS }, svgText(words.say('sky-chart.fist'))),
  ]
}

/** How to hold the chart, in lines under the circle. */
export function holdLines(words: Words): { readonly svg: readonly Svg[]; readonly heightPx: number } {
  const lines = linesOf(words.say('sky-chart.hold'), WIDTH / LETTER_PX)
  return {
    svg: lines.map((line, index) =>
      svgElement('text', { x: 0, y: FOOT_Y + (index + 1) * LINE_PX, ...LETTERS }, svgText(line)),
    ),
    heightPx: lines.length * LINE_PX + 10,
  }
}

/** Why the circle has no stars, in its middle. */
export function tooBright(words: Words): Svg[] {
  const lines = linesOf(words.say('sky-chart.no-stars'), RADIUS / LETTER_PX)
  return lines.map((line, index) =>
    svgElement(
      'text',
      { x: CENTRE_X, y: CENTRE_Y + 70 + index * LINE_PX, 'text-anchor': 'middle', ...LETTERS },
      svgText(line),
    ),
  )
}
