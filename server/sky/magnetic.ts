import { calculateMagneticField } from 'magvar'
import { clamp } from './angles.ts'
import type { Place } from './place.ts'

/** Where a compass needle points at a place. */
interface Needle {
  /** From true north to magnetic north in degrees, east positive. */
  readonly declinationDeg: number
  /** How much of the field holds the needle level, in nanotesla: below 6,000 a compass is sluggish, below 2,000 no help. */
  readonly levelNanotesla: number
  /** False for an instant for which the model was not made; the numbers are then those of its nearest day. */
  readonly isWithin: boolean
}

/** The years, in parts of a year, for which the World Magnetic Model 2025 was made. */
const MODEL_YEARS = { from: 2025, until: 2030 } as const

/**
 * The declination of the World Magnetic Model 2025 at a place and an instant; its height counts from the sea, which
 * differs from the ellipsoid's by less than the model can tell.
 */
export function declinationDeg({ latitudeDeg, longitudeDeg, heightM }: Place, at: Date): Needle {
  const year = yearOf(at)
  const { from, until } = MODEL_YEARS
  const field = calculateMagneticField(clamp(year, from, until - 1e-6), latitudeDeg, longitudeDeg, heightM / 1000)
  return { declinationDeg: field.declination, levelNanotesla: field.h, isWithin: from <= year && year < until }
}

/** An instant as a year with its part that has passed: 2027.5 in the middle of 2027. */
function yearOf(at: Date): number {
  const year = at.getUTCFullYear()
  const [start, end] = [Date.UTC(year, 0, 1), Date.UTC(year + 1, 0, 1)]
  return year + (at.getTime() - start) / (end - start)
}
