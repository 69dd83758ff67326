import { radians } from './angles.ts'

/** Below this true altitude in degrees the formula has no meaning and the refraction fades out towards the nadir. */
const FADES_BELOW_DEG = -1

/** Saemundsson's refraction in degrees from a true altitude in degrees, straight from the formula. */
function saemundssonDeg(trueAltitudeDeg: number): number {
  return 1.02 / 60 / Math.tan(radians(trueAltitudeDeg + 10.3 / (trueAltitudeDeg + 5.11)))
}

/**
 * How far the air lifts a thing, in degrees, 0 or more, from its TRUE altitude (-90 to 90 degrees), for 1010 hPa and 10 C
 * (Saemundsson, Sky & Telescope 72 (1986), 70; Meeus, 2nd ed., eq. 16.4). Below -1 degree it fades to 0 at the nadir.
 */
export function refractionDeg(trueAltitudeDeg: number): number {
  if (trueAltitudeDeg >= FADES_BELOW_DEG) return Math.max(0, saemundssonDeg(trueAltitudeDeg))
  const share = (90 + trueAltitudeDeg) / (90 + FADES_BELOW_DEG)
  return saemundssonDeg(FADES_BELOW_DEG) * Math.max(0, share)
}

/** The altitude in degrees at which a thing of this true altitude in degrees is seen; never NaN, never above 90. */
export const apparentAltitudeDeg = (trueAltitudeDeg: number): number =>
  Math.min(90, trueAltitudeDeg + refractionDeg(trueAltitudeDeg))

/** The true altitude in degrees of a thing seen at this altitude in degrees: the inverse of `apparentAltitudeDeg`. */
export function trueAltitudeDeg(seenAltitudeDeg: number): number {
  let guessDeg = seenAltitudeDeg - refractionDeg(seenAltitudeDeg)
  for (let round = 0; round < 12; round++) guessDeg = seenAltitudeDeg - refractionDeg(guessDeg)
  return guessDeg
}

/**
 * How far the air has lifted a thing, in degrees, 0 or more, from the altitude at which it is SEEN (0 to 90 degrees), for
 * 1010 hPa and 10 C (Bennett, Journal of Navigation 35 (1982), 255; Meeus, 2nd ed., eq. 16.3).
 */
export function refractionFromApparentDeg(seenAltitudeDeg: number): number {
  return Math.max(0, 1 / 60 / Math.tan(radians(seenAltitudeDeg + 7.31 / (seenAltitudeDeg + 4.4))))
}
