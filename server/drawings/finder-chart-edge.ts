import type { Words } from '../words/words.ts'
import type { Drawable } from './finder-chart.ts'
import { type ChartScale, LETTERS, MAP, type Point, WIDTH } from './finder-chart-scale.ts'
import { facing } from './finder-chart-words.ts'
import { type Svg, svgElement, svgText } from './svg.ts'

/** Widths at the end of a stretched arm; common practice, no source. */
const THUMB = { code: 'thumb', deg: 2 } as const
const BARS = [{ code: 'fist', deg: 10 }, { code: 'half', deg: 5 }, THUMB] as const
const LONGEST_BAR_PX = 172
const GAP_PX = 12

/** What stands around the map: day, time and the way to face above it, hours of the clock at its sides, a measure below. */
export function chartEdge(subject: Drawable, scale: ChartScale, words: Words): readonly Svg[] {
  const { at, zone, way, heightPx } = subject
  const middleY = MAP.top + scale.heightPx / 2
  const footY = MAP.top + scale.heightPx
  const when = { day: words.dayAndMonth(at, zone), time: words.time(at, zone), point: facing(way.frame.middle, words) }
  return [
    letters({ x: WIDTH / 2, y: 20 }, words.say('finder.when', when)),
    letters({ x: WIDTH / 2, y: MAP.top - 9 }, words.say('finder.up')),
    letters({ x: MAP.left / 2 - 1, y: middleY + 8 }, words.number(9)),
    letters({ x: MAP.left + MAP.width + MAP.left / 2 + 1, y: middleY + 8 }, words.number(3)),
    ...(heightPx === null ? [letters({ x: WIDTH / 2, y: footY + 22 }, words.number(6))] : []),
    ...measure(footY + (heightPx === null ? 54 : 18), scale.pxPerDeg, words),
  ]
}

const letters = ({ x, y }: Point, text: string, anchor: 'start' | 'middle' = 'middle'): Svg =>
  svgElement('text', { x, y, 'text-anchor': anchor, ...LETTERS }, svgText(text))

/** A bar of a fist, or of less where that would be too long. */
function measure(y: number, pxPerDeg: number, words: Words): Svg[] {
  const { code, deg } = BARS.find((bar) => bar.deg * pxPerDeg <= LONGEST_BAR_PX) ?? THUMB
  const longPx = deg * pxPerDeg
  const left = MAP.left
  const ink = { stroke: 'currentColor', 'stroke-width': 2.5 }
  return [
    svgElement('line', { x1: left, x2: left + longPx, y1: y, y2: y, ...ink }),
    ...[left, left + longPx].map((x) => svgElement('line', { x1: x, x2: x, y1: y - 7, y2: y + 7, ...ink })),
    letters({ x: left + longPx + GAP_PX, y: y + 7 }, words.say(`finder.bar-${code}`), 'start'),
  ]
}
