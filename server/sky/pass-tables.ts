import { airmassPickering } from './airmass.ts'
import { degrees } from './angles.ts'
import { apparentAltitudeDeg } from './refraction.ts'

/** Steps of the arctangent's table over ratios from 0 to 1; straight lines between them err 0.001" at most. */
export const ARC_STEPS = 4096

/** Steps a degree in the tables of the air; straight lines between them err 0.01" in altitude and 0.02 % in airmass. */
export const AIR_STEPS_PER_DEG = 64

/** Value and rise to the next step in pairs, so that one look reads both; the last pair is a flat end. */
function paired(count: number, valueAt: (step: number) => number): Float64Array {
  const table = new Float64Array(2 * (count + 1))
  for (let step = 0; step <= count; step++) {
    table[2 * step] = valueAt(step)
    table[2 * step + 1] = step < count ? valueAt(step + 1) - valueAt(step) : 0
  }
  return table
}

/** Arctangent in degrees of step / ARC_STEPS, in pairs of value and rise. */
export const arcTable = (): Float64Array => paired(ARC_STEPS, (step) => degrees(Math.atan(step / ARC_STEPS)))

/** Apparent altitude in degrees of true altitudes from -90 to 90 degrees, in pairs of value and rise. */
export const altitudeTable = (): Float64Array =>
  paired(180 * AIR_STEPS_PER_DEG, (step) => apparentAltitudeDeg(step / AIR_STEPS_PER_DEG - 90))

/** Airmass of apparent altitudes from 0 to 90 degrees, in pairs; it has a kink at 0, so the table begins there. */
export const airmassTable = (): Float64Array =>
  paired(90 * AIR_STEPS_PER_DEG, (step) => airmassPickering(step / AIR_STEPS_PER_DEG))
