import type { Horizontal } from '../sky/horizontal.ts'
import type { Way } from '../tours/hops.ts'
import type { Site } from '../tours/site.ts'
import { skylineAt } from '../tours/skyline.ts'
import type { ChartedStar, Drawable, DrawnField } from './finder-chart.ts'
import { type ChartScale, MAP, type Point } from './finder-chart-scale.ts'
import { pointsText, type Svg, svgElement } from './svg.ts'

/** A hop as it was drawn, from the middle of one place to the middle of the next, and how much is left out at both ends. */
export interface DrawnHop {
  readonly from: Point
  readonly to: Point
  readonly gapFromPx: number
  readonly gapToPx: number
}

const GAP_PX = 5

/** The hops of a way; the last one ends at the edge of what the telescope shows. */
export function drawnHops(
  way: Exclude<Way, { readonly kind: 'none' }>,
  scale: ChartScale,
  stars: readonly ChartedStar[],
  mainRadiusPx: number,
  target: Point,
): readonly DrawnHop[] {
  if (way.kind !== 'hops') return []
  const radiusOf = (key: string): number => stars.find((star) => star.key === key)?.radiusPx ?? 0
  const ownPx = Math.max(mainRadiusPx, radiusOf('target'))
  return way.hops.map(({ from, toward }) => ({
    from: scale.place(from.direction),
    to: toward === null ? target : scale.place(toward.direction),
    gapFromPx: radiusOf(from.key) + GAP_PX,
    gapToPx: (toward === null ? ownPx : radiusOf(toward.key)) + GAP_PX,
  }))
}

/** White around a dot, so that it stands clear of lines and hatching. */
const RIM = { stroke: 'white', 'stroke-width': 4, 'paint-order': 'stroke' }

export const starDot = ({ x, y, radiusPx }: ChartedStar): Svg =>
  svgElement('circle', { cx: x, cy: y, r: radiusPx, fill: 'currentColor', ...RIM })

export const fieldRing = ({ x, y, radiusPx }: DrawnField): Svg =>
  svgElement('circle', { cx: x, cy: y, r: radiusPx, fill: 'none', stroke: 'currentColor', 'stroke-width': 1.6 })

const HATCH_PX = 4.5

/** A disc of slanting strokes, which no photocopier turns into a blot. */
export function hatchedDisc({ x, y, radiusPx }: DrawnField): readonly Svg[] {
  const count = Math.floor(radiusPx / HATCH_PX)
  const strokes = Array.from({ length: 2 * count + 1 }, (_, k) => {
    const off = (k - count) * HATCH_PX
    const half = Math.sqrt(Math.max(0, radiusPx ** 2 - off ** 2))
    const [middleX, middleY] = [x + off * Math.SQRT1_2, y + off * Math.SQRT1_2]
    const reach = half * Math.SQRT1_2
    return svgElement('line', {
      x1: middleX - reach,
      y1: middleY + reach,
      x2: middleX + reach,
      y2: middleY - reach,
      stroke: 'currentColor',
      'stroke-width': 1.4,
    })
  })
  const edge = { fill: 'white', stroke: 'currentColor', 'stroke-width': 1.4 }
  return [svgElement('circle', { cx: x, cy: y, r: radiusPx, ...edge }), ...strokes]
}

const ARROW = { longPx: 11, halfPx: 5 } as const

const clearPx = ({ from, to, gapFromPx, gapToPx }: DrawnHop): number =>
  Math.hypot(to.x - from.x, to.y - from.y) - gapFromPx - gapToPx

/** True where the gaps at both ends leave room for an arrow. */
export const isDrawn = (hop: DrawnHop): boolean => clearPx(hop) >= ARROW.longPx

/** A thin line with the tip of an arrow, none where the gaps leave nothing of it. */
export const hopMarks = (hops: readonly DrawnHop[]): readonly Svg[] =>
  hops.filter(isDrawn).flatMap(({ from, to, gapFromPx, gapToPx }) => {
    const longPx = Math.hypot(to.x - from.x, to.y - from.y)
    const [right, down] = [(to.x - from.x) / longPx, (to.y - from.y) / longPx]
    const on = (alongPx: number, asidePx: number): readonly [number, number] => [
      from.x + right * alongPx - down * asidePx,
      from.y + down * alongPx + right * asidePx,
    ]
    const tipPx = longPx - gapToPx
    const [[x1, y1], [x2, y2]] = [on(gapFromPx, 0), on(tipPx - ARROW.longPx, 0)]
    const tip = [on(tipPx, 0), on(tipPx - ARROW.longPx, ARROW.halfPx), on(tipPx - ARROW.longPx, -ARROW.halfPx)]
    return [
      svgElement('line', { x1, y1, x2, y2, stroke: 'currentColor', 'stroke-width': 1.6 }),
      svgElement('polygon', { points: pointsText(tip), fill: 'currentColor' }),
    ]
  })

/** The figures of the constellations as fine dots, a little apart from their stars. */
export function figureMarks({ figures, stars, horizon }: Drawable, scale: ChartScale): readonly Svg[] {
  const seen = stars.filter(({ direction }) => isOverSkyline(direction, horizon))
  const placed = new Map(seen.map(({ key, direction }) => [key, scale.place(direction)]))
  return figures.flatMap(([one, other]) => {
    const [from, to] = [placed.get(one), placed.get(other)]
    if (from === undefined || to === undefined) return []
    return [svgElement('line', { x1: from.x, y1: from.y, x2: to.x, y2: to.y, ...FIGURE_INK })]
  })
}

const FIGURE_INK = {
  stroke: 'currentColor',
  'stroke-width': 1.2,
  'stroke-linecap': 'round',
  'stroke-dasharray': '0.1 5',
}

/** True for what no tree, roof or ground hides. */
export const isOverSkyline = ({ altitudeDeg, azimuthDeg }: Horizontal, horizon: Site['horizon']): boolean =>
  altitudeDeg > Math.max(0, skylineAt(horizon, azimuthDeg).altitudeDeg)

const TICK_EVERY = 3

/** The tops of trees and roofs as a line with strokes below it, where they come into the picture. */
export function skylineMarks({ way, horizon }: Drawable, scale: ChartScale): readonly Svg[] {
  const { azimuthDeg: middleDeg, altitudeDeg } = way.frame.middle
  const spanDeg = Math.min(90, MAP.width / scale.pxPerDeg / Math.max(0.2, Math.cos((altitudeDeg * Math.PI) / 180)))
  const tops = Array.from({ length: 181 }, (_, k): Point => {
    const azimuthDeg = middleDeg + (spanDeg * (k - 90)) / 90
    return scale.place({ azimuthDeg, altitudeDeg: Math.max(0, skylineAt(horizon, azimuthDeg).altitudeDeg) })
  })
  if (tops.every(({ y }) => y > MAP.top + scale.heightPx)) return []
  const ink = { fill: 'none', stroke: 'currentColor', 'stroke-width': 1.4 }
  const ticks = tops.filter((_, k) => k % TICK_EVERY === 0)
  return [
    svgElement('polyline', { points: pointsText(tops.map(({ x, y }) => [x, y])), ...ink }),
    ...ticks.map(({ x, y }) => svgElement('line', { x1: x, y1: y, x2: x - 6, y2: y + 9, ...ink })),
  ]
}
