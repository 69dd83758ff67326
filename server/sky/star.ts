import { degrees, radians, wrap360 } from './angles.ts'
import {
  earthMotion,
  earthTilt,
  groundMotion,
  type Instant,
  instantOf,
  rotationToDate,
  rotationToHorizon,
} from './engine.ts'
import type { Horizontal } from './horizontal.ts'
import type { Place } from './place.ts'
import { yearsSinceEpoch } from './time.ts'
import { cross, fromSphere, plus, toSphere, turn, unit, type Vector } from './vectors.ts'

/** Where a thing beyond the solar system stands: ICRS at epoch J2000.0, and how it moves. */
export interface StarPlace {
  readonly raDeg: number
  readonly decDeg: number
  /** Milliarcseconds a year along the parallel: mu alpha times cos delta, east positive. */
  readonly pmRaMasYr: number
  readonly pmDecMasYr: number
  readonly parallaxMas: number
}

/** Right ascension and declination in degrees. */
export interface Equatorial {
  readonly raDeg: number
  readonly decDeg: number
}

const MAS = radians(1 / 3_600_000)

/** The direction from the barycentre at an instant: proper motion along a straight line, no parallax (unit vector, ICRS). */
function barycentric(star: StarPlace, at: Date): Vector {
  const there = fromSphere(star.raDeg, star.decDeg)
  const east: Vector = [-Math.sin(radians(star.raDeg)), Math.cos(radians(star.raDeg)), 0]
  const north = cross(there, east)
  const years = yearsSinceEpoch(at) * MAS
  return unit(plus(plus(there, east, star.pmRaMasYr * years), north, star.pmDecMasYr * years))
}

/** The direction of a star from the Earth at an instant, proper motion and parallax applied: a unit vector in the ICRS. */
export function starVector(star: StarPlace, at: Date, earthAu: Vector = earthMotion(instantOf(at)).placeAu): Vector {
  return unit(plus(barycentric(star, at), earthAu, -star.parallaxMas * MAS))
}

/**
 * The apparent place of a star seen from the Earth's centre, equator and equinox of the date, in degrees: proper motion,
 * parallax, annual aberration, precession and nutation (Meeus, 2nd ed., chapter 23, with vectors).
 */
export function starOfDate(star: StarPlace, at: Date): Equatorial {
  const instant = instantOf(at)
  const { placeAu, velocityC } = earthMotion(instant)
  return toSphere(turn(rotationToDate(instant), plus(starVector(star, at, placeAu), velocityC)))
}

/** The direction turned about the equinox axis: from equator to ecliptic for a positive tilt in degrees. */
function tilted(a: Vector, tiltDeg: number): Vector {
  const [cos, sin] = [Math.cos(radians(tiltDeg)), Math.sin(radians(tiltDeg))]
  return [a[0], cos * a[1] + sin * a[2], cos * a[2] - sin * a[1]]
}

/** A true equatorial vector of date with the nutation taken out (Meeus, 2nd ed., chapter 22). */
function withoutNutation(trueOfDate: Vector, instant: Instant): Vector {
  const { nutationDeg, meanTiltDeg, trueTiltDeg } = earthTilt(instant)
  const [x, y, z] = tilted(trueOfDate, trueTiltDeg)
  const longitudeDeg = degrees(Math.atan2(y, x)) - nutationDeg
  const flat = Math.hypot(x, y)
  return tilted([flat * Math.cos(radians(longitudeDeg)), flat * Math.sin(radians(longitudeDeg)), z], -meanTiltDeg)
}

/**
 * The mean place of a star, equator and equinox of the date, in degrees: proper motion and precession only, as lists and
 * setting circles have it.
 */
export function starMeanOfDate(star: StarPlace, at: Date): Equatorial {
  const instant = instantOf(at)
  return toSphere(withoutNutation(turn(rotationToDate(instant), barycentric(star, at)), instant))
}

/**
 * Altitude and azimuth of a star over a place in degrees, WITHOUT refraction; proper motion, parallax, precession, nutation,
 * annual and diurnal aberration are in it. Off the light bending near the Sun it is good to 0.2".
 */
export function starHorizontal(star: StarPlace, at: Date, place: Place): Horizontal {
  const instant = instantOf(at)
  const { placeAu, velocityC } = earthMotion(instant)
  const seen = plus(plus(starVector(star, at, placeAu), velocityC), groundMotion(instant, place).velocityC)
  const [north, west, up] = turn(rotationToHorizon(instant, place), seen)
  return {
    altitudeDeg: degrees(Math.atan2(up, Math.hypot(north, west))),
    azimuthDeg: wrap360(degrees(Math.atan2(-west, north))),
  }
}
