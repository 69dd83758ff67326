import { directionDeg } from './direction.ts'
import { instantOf, rotationToDate, rotationToHorizon } from './engine.ts'
import type { Place } from './place.ts'
import type { Equatorial } from './star.ts'
import { toSphere, turn } from './vectors.ts'

/** The position angle of the zenith, 0 up to 360 degrees, at a place of the sky given for the equator of the date: 0 due south in the north, up to 90 in the west (Meeus, 2nd ed., eq. 14.1). */
export function zenithAngleDeg(seen: Equatorial, at: Date, place: Place): number {
  const instant = instantOf(at)
  const [, , zenith] = rotationToHorizon(instant, place)
  return directionDeg(seen, toSphere(turn(rotationToDate(instant), zenith)))
}

/** The same at a place of J2000, and the position angle of the pole of the date there: both counted from the north of J2000. */
export function anglesOfDate(
  j2000: Equatorial,
  at: Date,
  place: Place,
): { readonly zenithDeg: number; readonly poleDeg: number } {
  const instant = instantOf(at)
  const [, , zenith] = rotationToHorizon(instant, place)
  const [, , pole] = rotationToDate(instant)
  return { zenithDeg: directionDeg(j2000, toSphere(zenith)), poleDeg: directionDeg(j2000, toSphere(pole)) }
}
