import { degrees, radians, wrap360 } from '../sky/angles.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import type { Site } from '../tours/site.ts'
import { type SkylineTop, skylineAt } from '../tours/skyline.ts'

/** The whole drawing is 900 wide: printed 180 mm wide, five to the millimetre. */
export const WIDTH = 900
const TOP = 44
export const CENTRE_X = WIDTH / 2
export const CENTRE_Y = TOP + WIDTH / 2
/** From overhead to the level horizon. */
export const RADIUS = 388
export const FOOT_Y = TOP + WIDTH

export type Point = readonly [x: number, y: number]

/** The sky laid flat as it is held overhead: equal angles from overhead are equal lengths, and one direction is at the bottom. */
export interface SkyPaper {
  readonly facingDeg: number
  readonly place: (altitudeDeg: number, azimuthDeg: number) => Point
  /** What stands at a place of the paper: the inverse of `place`. */
  readonly skyAt: (x: number, y: number) => Horizontal
}

/** South of the equator people turn north to the Sun's path, elsewhere south. */
const facingOf = (latitudeDeg: number): number => (latitudeDeg < 0 ? 0 : 180)

export function skyPaper(latitudeDeg: number): SkyPaper {
  const facingDeg = facingOf(latitudeDeg)
  return {
    facingDeg,
    place: (altitudeDeg, azimuthDeg) => polar((RADIUS * (90 - altitudeDeg)) / 90, azimuthDeg - facingDeg),
    skyAt(x, y) {
      const [right, down] = [x - CENTRE_X, y - CENTRE_Y]
      return {
        altitudeDeg: 90 - (90 * Math.hypot(right, down)) / RADIUS,
        azimuthDeg: wrap360(facingDeg + degrees(Math.atan2(right, down))),
      }
    },
  }
}

/** What stands at every whole degree of azimuth. */
export type Skyline = readonly SkylineTop[]

export const skylineOf = (horizon: Site['horizon']): Skyline =>
  Array.from({ length: 360 }, (_, azimuthDeg) => skylineAt(horizon, azimuthDeg))

/** True where the sky is free of trees and roofs, to half a degree. */
export function isAboveSkyline([x, y]: Point, skyline: Skyline, { skyAt }: SkyPaper): boolean {
  const { altitudeDeg, azimuthDeg } = skyAt(x, y)
  return altitudeDeg > (skyline[Math.round(azimuthDeg) % 360]?.altitudeDeg ?? 0)
}

/** A place so far from the middle, in degrees from the bottom round by the right. */
export function polar(radiusPx: number, turnDeg: number): Point {
  const turn = radians(turnDeg)
  return [CENTRE_X + radiusPx * Math.sin(turn), CENTRE_Y + radiusPx * Math.cos(turn)]
}
