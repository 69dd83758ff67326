import { wrap360 } from '../sky/angles.ts'
import type { Horizontal } from '../sky/horizontal.ts'

/** A direction as an arm shows it. */
export interface Pointing {
  /** One of sixteen compass points, 0 = north, 4 = east. */
  readonly point: number
  /** Fists at arm's length above the level horizon, 10 degrees each, to the half. */
  readonly fists: number
}

/** The sixteen compass points, 0 = north, 4 = east. */
export const POINTS = Array.from({ length: 16 }, (_, point) => point)
/** From one of them to the next. */
export const POINT_DEG = 360 / POINTS.length

/** The nearest of the sixteen compass points to an azimuth in degrees. */
export const pointAt = (azimuthDeg: number): number => Math.round(wrap360(azimuthDeg) / POINT_DEG) % POINTS.length

/** The nearest compass point and the height in fists of a place in the sky. */
export const pointingOf = ({ altitudeDeg, azimuthDeg }: Horizontal): Pointing => ({
  point: pointAt(azimuthDeg),
  fists: Math.round(altitudeDeg / 5) / 2,
})
