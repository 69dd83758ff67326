import { radians } from '../sky/angles.ts'
import { fromSphere, plus, toSphere, type Vector } from '../sky/vectors.ts'
import type { FigureStroke, StarOver } from '../tours/sky-over.ts'
import type { Point, SkyPaper } from './sky-chart-paper.ts'
import { type Svg, svgElement } from './svg.ts'

/** A star as it is drawn. */
export interface DrawnStar {
  readonly hip: number
  readonly magnitude: number
  readonly x: number
  readonly y: number
  readonly radiusPx: number
}

/** A line of a figure as it is drawn, as far as it stands above the horizon. */
export interface DrawnStroke {
  readonly constellation: string
  readonly from: Point
  readonly to: Point
}

const LEAST_PX = 1.4
const MOST_PX = 7.6

/** How large a star of a magnitude is drawn. */
export const dotPx = (magnitude: number): number => Math.min(MOST_PX, Math.max(LEAST_PX, 6.1 - 0.98 * magnitude))

export const drawnStars = (stars: readonly StarOver[], { place }: SkyPaper): readonly DrawnStar[] =>
  stars.map(({ hip, magnitude, altitudeDeg, azimuthDeg }) => {
    const [x, y] = place(altitudeDeg, azimuthDeg)
    return { hip, magnitude, x, y, radiusPx: dotPx(magnitude) }
  })

export const starDots = (stars: readonly DrawnStar[]): Svg[] =>
  stars.map(({ x, y, radiusPx }) => svgElement('circle', { cx: x, cy: y, r: radiusPx, fill: 'currentColor' }))

const GAP_PX = 3.5

/** The lines of the figures, cut off at the horizon and a little way from their stars. */
export function drawnStrokes(
  strokes: readonly FigureStroke[],
  stars: readonly DrawnStar[],
  paper: SkyPaper,
): readonly DrawnStroke[] {
  const radii = new Map(stars.map(({ hip, radiusPx }) => [hip, radiusPx]))
  const gap = ({ hip }: StarOver): number => (radii.get(hip) ?? -GAP_PX) + GAP_PX
  return strokes.flatMap(({ constellation, from, to }): DrawnStroke[] => {
    const [start, end] = [aboveHorizon(from, to, paper), aboveHorizon(to, from, paper)]
    const longPx = Math.hypot(end[0] - start[0], end[1] - start[1])
    const [first, last] = [gap(from) / longPx, 1 - gap(to) / longPx]
    if (!(last > first)) return []
    return [{ constellation, from: between(start, end, first), to: between(start, end, last) }]
  })
}

const between = (a: Point, b: Point, share: number): Point => [
  a[0] + share * (b[0] - a[0]),
  a[1] + share * (b[1] - a[1]),
]

/** Where an end of a line is drawn: at its star, or on the horizon when that is below. */
function aboveHorizon(end: StarOver, other: StarOver, { place }: SkyPaper): Point {
  if (end.altitudeDeg >= 0) return place(end.altitudeDeg, end.azimuthDeg)
  const vector = (star: StarOver): Vector => fromSphere(star.azimuthDeg, star.altitudeDeg)
  const [down, up] = [Math.sin(radians(end.altitudeDeg)), Math.sin(radians(other.altitudeDeg))]
  const share = down / (down - up)
  const { raDeg: azimuthDeg } = toSphere(plus(plus([0, 0, 0], vector(end), 1 - share), vector(other), share))
  return place(0, azimuthDeg)
}

/** All lines as one thin path. */
export function strokeLines(strokes: readonly DrawnStroke[]): Svg[] {
  if (strokes.length === 0) return []
  const d = strokes.map(({ from, to }) => `M${pointText(from)}L${pointText(to)}`).join('')
  return [svgElement('path', { d, fill: 'none', stroke: 'currentColor', 'stroke-width': 1.3 })]
}

/** A point in the text of a path. */
export const pointText = ([x, y]: Point): string => `${x.toFixed(1)} ${y.toFixed(1)}`
