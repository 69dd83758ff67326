import { wrap360 } from './angles.ts'
import { greenwichSiderealDeg, instantOf } from './engine.ts'

const DAY_MS = 86_400_000
const UNIX_EPOCH_JD = 2_440_587.5

/** Julian date of 2000 January 1, noon. */
export const EPOCH_JD = 2_451_545

/** Days in a Julian year. */
export const YEAR_DAYS = 365.25

/** The Julian date (UTC) of an instant, in days. */
export const julianDate = (at: Date): number => at.getTime() / DAY_MS + UNIX_EPOCH_JD

/** The instant (UTC) of a Julian date, to the millisecond. */
export const dateOfJulian = (jd: number): Date => new Date(Math.round((jd - UNIX_EPOCH_JD) * DAY_MS))

/** Julian years since 2000 January 1, noon; negative before. */
export const yearsSinceEpoch = (at: Date): number => (julianDate(at) - EPOCH_JD) / YEAR_DAYS

/** Mean sidereal time at Greenwich in degrees, 0 up to 360 (Meeus, 2nd ed., eq. 12.4). */
export function meanSiderealDeg(at: Date): number {
  const days = julianDate(at) - EPOCH_JD
  const centuries = days / 36_525
  const slow = centuries ** 2 * (0.000387933 - centuries / 38_710_000)
  return wrap360(280.46061837 + 360.98564736629 * days + slow)
}

/** Apparent sidereal time at Greenwich in degrees, 0 up to 360: the mean one with the equation of the equinoxes. */
export const siderealDeg = (at: Date): number => wrap360(greenwichSiderealDeg(instantOf(at)))
