import type { Words } from '../words/words.ts'
import type { Drawable } from './finder-chart.ts'
import { type ChartScale, LETTERS, MAP, type Point, WIDTH } from './finder-chart-scale.ts'
import { facing } from './finder-chart-words.ts'
import { lineEm } from './letter-widths.ts'
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
    letters({ x: WIDTH / 2, y: 20 }, whenText(when, words)),
    letters({ x: WIDTH / 2, y: MAP.top - 9 }, words.say('finder.up')),
    letters({ x: MAP.left / 2 - 1, y: middleY + 8 }, words.number(9)),
    letters({ x: MAP.left + MAP.width + MAP.left / 2 + 1, y: middleY + 8 }, words.number(3)),
    ...(heightPx === null ? [letters({ x: WIDTH / 2, y: footY + 22 }, words.number(6))] : []),
    ...measure(footY + (heightPx === null ? 54 : 18), scale.pxPerDeg, words),
  ]
}

/** Without the day where a long month and a long direction leave no room for it; the day stands on every sheet. */
function whenText(when: Readonly<Record<'day' | 'time' | 'point', string>>, words: Words): string {
  const whole = words.say('finder.when', when)
  return widthPx(whole) <= WIDTH ? whole : words.say('finder.when-short', when)
}

const widthPx = (text: string): number => lineEm(text) * LETTERS['font-size']

const letters = ({ x, y }: Point, text: string, anchor: 'start' | 'middle' = 'middle'): Svg =>
  svgElement('text', { x, y, 'text-anchor': anchor, ...LETTERS }, svgText(text))

/** A bar of a fist, or of less where that would be too long, or would leave no room for its words. */
function measure(y: number, pxPerDeg: number, words: Words): Svg[] {
  const roomPx = ({ code }: (typeof BARS)[number]): number =>
    WIDTH - MAP.left - GAP_PX - widthPx(words.say(`finder.bar-${code}`))
  const isFitting = (bar: (typeof BARS)[number]): boolean => bar.deg * pxPerDeg <= Math.min(LONGEST_BAR_PX, roomPx(bar))
  const { code, deg } = BARS.find(isFitting) ?? THUMB
  const longPx = deg * pxPerDeg
  const left = MAP.left
  const ink = { stroke: 'currentColor', 'stroke-width': 2.5 }
  return [
    svgElement('line', { x1: left, x2: left + longPx, y1: y, y2: y, ...ink }),
    ...[left, left + longPx].map((x) => svgElement('line', { x1: x, x2: x, y1: y - 7, y2: y + 7, ...ink })),
    letters({ x: left + longPx + GAP_PX, y: y + 7 }, words.say(`finder.bar-${code}`), 'start'),
  ]
}
