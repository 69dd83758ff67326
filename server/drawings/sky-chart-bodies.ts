import { degrees, radians, wrap360 } from '../sky/angles.ts'
import type { BodyKey } from '../sky/body.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import { cross, fromSphere, plus, toSphere, unit } from '../sky/vectors.ts'
import type { SkyPaper } from './sky-chart-paper.ts'
import { dotPx, pointText } from './sky-chart-stars.ts'
import { type Svg, svgElement } from './svg.ts'

/** The Moon or a planet that stands above the horizon. */
export interface ChartBody extends Horizontal {
  readonly body: BodyKey
  readonly name: string
  readonly magnitude: number
  /** 0 to 1. */
  readonly litFraction: number
}

export interface DrawnBody {
  readonly body: BodyKey
  readonly name: string
  readonly x: number
  readonly y: number
  readonly radiusPx: number
  /** Which way the Moon's lit side looks on paper, clockwise from the top in degrees; null for the rest. */
  readonly litAngleDeg: number | null
}

const MOON_PX = 14
const LEAST_PLANET_PX = 3
export const SUN_PX = 16

export function drawnBody(body: ChartBody, sun: Horizontal, paper: SkyPaper): DrawnBody {
  const [x, y] = paper.place(body.altitudeDeg, body.azimuthDeg)
  const isMoon = body.body === 'moon'
  const radiusPx = isMoon ? MOON_PX : Math.max(LEAST_PLANET_PX, dotPx(body.magnitude))
  const litAngleDeg = isMoon ? angleTowards(body, sun, paper) : null
  return { body: body.body, name: body.name, x, y, radiusPx, litAngleDeg }
}

const ASIDE = Math.tan(radians(1))

/** Which way the straight way on the sky from one place to another starts on paper. */
function angleTowards(from: Horizontal, to: Horizontal, { place }: SkyPaper): number {
  const [here, there] = [fromSphere(from.azimuthDeg, from.altitudeDeg), fromSphere(to.azimuthDeg, to.altitudeDeg)]
  const onward = unit(cross(cross(here, there), here))
  const { raDeg: azimuthDeg, decDeg: altitudeDeg } = toSphere(plus(here, onward, ASIDE))
  const [x, y] = place(from.altitudeDeg, from.azimuthDeg)
  const [nextX, nextY] = place(altitudeDeg, azimuthDeg)
  return wrap360(degrees(Math.atan2(nextX - x, y - nextY)))
}

export function bodyMark(drawn: DrawnBody, litFraction: number): Svg[] {
  const { x, y, radiusPx, litAngleDeg } = drawn
  if (litAngleDeg === null) return [svgElement('circle', { cx: x, cy: y, r: radiusPx, fill: 'currentColor' })]
  return [
    svgElement('circle', { cx: x, cy: y, r: radiusPx, fill: 'white', stroke: 'currentColor', 'stroke-width': 2 }),
    svgElement('path', {
      d: darkSide(radiusPx, litFraction),
      transform: `translate(${pointText([x, y])}) rotate(${(litAngleDeg - 90).toFixed(1)})`,
      fill: 'currentColor',
    }),
  ]
}

/** The part of the Moon that the Sun does not reach, the lit side to the right. */
function darkSide(radiusPx: number, litFraction: number): string {
  const bulgePx = radiusPx * (1 - 2 * litFraction)
  const limb = `M0 ${-radiusPx}A${radiusPx} ${radiusPx} 0 0 0 0 ${radiusPx}`
  return `${limb}A${Math.abs(bulgePx).toFixed(2)} ${radiusPx} 0 0 ${bulgePx > 0 ? 0 : 1} 0 ${-radiusPx}Z`
}

export const sunMark = ([x, y]: readonly [number, number]): Svg =>
  svgElement('circle', { cx: x, cy: y, r: SUN_PX, fill: 'white', stroke: 'currentColor', 'stroke-width': 3 })
