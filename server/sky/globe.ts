import { clamp, degrees, radians, wrap360 } from './angles.ts'
import type { BodyKey } from './body.ts'
import { cross, dot, type Rotation, turn, unit, type Vector } from './vectors.ts'

/** One astronomical unit in kilometres (IAU 2012). */
export const AU_KM = 149_597_870.7

/** Days that light takes for one astronomical unit. */
export const LIGHT_DAYS_PER_AU = 1 / 173.1446326846693

/** Equatorial radii in kilometres (IAU working group on cartographic coordinates, 2015; the Sun's 696,000 by convention). */
export const RADIUS_KM: Readonly<Record<BodyKey, number>> = {
  sun: 696_000,
  moon: 1737.4,
  mercury: 2440.53,
  venus: 6051.8,
  mars: 3396.19,
  jupiter: 71_492,
  saturn: 60_268,
  uranus: 25_559,
  neptune: 24_764,
}

/** Apparent equatorial diameter in arcseconds of a body at a distance in au. */
export const diameterArcsec = (key: BodyKey, au: number): number =>
  2 * 3600 * degrees(Math.asin(RADIUS_KM[key] / (AU_KM * au)))

/** The share of a globe's disc that is lit, 0 to 1, from its phase angle in degrees (Meeus, 2nd ed., eq. 41.1). */
export const litFractionOf = (phaseAngleDeg: number): number => (1 + Math.cos(radians(phaseAngleDeg))) / 2

/** The latitude (degrees, north positive, from the globe's centre) on a globe above which a direction from it points. */
export const latitudeUnderDeg = (north: Vector, outward: Vector): number =>
  degrees(Math.asin(clamp(dot(north, unit(outward)), -1, 1)))

/**
 * The angle in degrees, 0 up to 360, in the globe's equator from its ascending node on the axes' equator, counted with its
 * spin, to the direction `outward`. A meridian's spin angle minus this is the west longitude of the point below.
 */
export function turnFromNodeDeg(north: Vector, outward: Vector): number {
  const node = unit(cross([0, 0, 1], north))
  return wrap360(degrees(Math.atan2(dot(outward, cross(north, node)), dot(outward, node))))
}

/**
 * The position angle (degrees, 0 up to 360, north through east, equator of date) in which `towards` points when it is seen
 * across a line of sight; both in the ICRS, `toDate` turns them to the date.
 */
export function positionAngleDeg(lineOfSight: Vector, towards: Vector, toDate: Rotation): number {
  const sight = unit(turn(toDate, lineOfSight))
  const along = turn(toDate, towards)
  const east = unit(cross([0, 0, 1], sight))
  return wrap360(degrees(Math.atan2(dot(along, east), dot(along, cross(sight, east)))))
}
