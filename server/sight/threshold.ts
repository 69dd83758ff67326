import { ramp } from './ramp.ts'

/*
 * The laboratory threshold of trained eyes by background luminance, Crumey, MNRAS 442 (2014), 2600. Three curves of one
 * background B in cd/m^2: the illuminance of a just visible point in lux, the small-area term R in steradians, and the
 * contrast floor of a very large patch. A point is R times B. Under bare eyes it gives stars of 4.5 to 5 even from a bright
 * town, as Garstang 2000 does; the fit to Hecht's data in Schaefer 1990 falls to 3.5 there, 1.3 magnitudes apart at 17.5.
 */
interface Law {
  /** Ricco term R in steradians. */
  readonly spread: (b: number) => number
  /** Contrast floor C. */
  readonly floor: (b: number) => number
}

const fourthRoot = (b: number): number => Math.sqrt(Math.sqrt(b))

/** Night vision: eqs. 26, 32, 37. The paper's printed figures are of these. */
export const scotopic: Law = {
  spread: (b) => (6.505e-4 / fourthRoot(b) - 8.461e-4) ** 2,
  floor: (b) => 7.633e-3 / fourthRoot(b) - 7.174e-3,
}

/** Night to day: eqs. 28, 34, 40. */
export const fullRange: Law = {
  spread: (b) => {
    const root = Math.sqrt(b)
    const fourth = Math.sqrt(root)
    return (Math.sqrt(5.949e-8 / root - 2.389e-7 / fourth + 2.459e-7) + 4.12e-4 / fourth - 4.225e-4) ** 2
  },
  floor: (b) => {
    const root = Math.sqrt(b)
    const fourth = Math.sqrt(root)
    return Math.sqrt(9.606e-6 / root - 4.112e-5 / fourth + 5.019e-5) + 4.837e-3 / fourth - 4.884e-3
  },
}

const NIGHT_UP_TO_CD = 1e-3
const DAY_FROM_CD = 1e-2

/** Pure night vision up to 1e-3 cd/m^2, the full-range law from 1e-2, sliding between: the first turns over in twilight, the second is some per cent off in the dark. */
function joined(night: (b: number) => number, whole: (b: number) => number): (b: number) => number {
  return (b) => {
    if (b <= NIGHT_UP_TO_CD) return night(b)
    if (b >= DAY_FROM_CD) return whole(b)
    const share = ramp(Math.log10(b), Math.log10(NIGHT_UP_TO_CD), Math.log10(DAY_FROM_CD))
    return night(b) * (1 - share) + whole(b) * share
  }
}

/** The least background that counts, in cd/m^2: darker is as good as black (Crumey, text before eq. 51). */
export const BLACK_CD = 1e-5

const DIP_FROM_CD = 0.0216
const DIP_TO_CD = 0.1
const DIP_LUX = DIP_FROM_CD * fullRange.spread(DIP_FROM_CD)

// Eq. 34 has a dip of 3 % between rods and cones, where a brighter sky would show fainter stars: held level there.
const levelled = (b: number): number =>
  b > DIP_FROM_CD && b < DIP_TO_CD ? Math.max(DIP_LUX / b, fullRange.spread(b)) : fullRange.spread(b)

/** Small-area term R in steradians at a background in cd/m^2, 1e-5 or more. */
export const spreadSr = joined(scotopic.spread, levelled)

/** Contrast floor of a very large patch at a background in cd/m^2, 1e-5 or more. */
export const contrastFloor = joined(scotopic.floor, fullRange.floor)

/** Illuminance in lux of a just visible point on a background in cd/m^2 (eqs. 32 and 34). */
export const pointLux = (b: number): number => b * spreadSr(b)

/** The exponent q that joins small and large patches, by background in cd/m^2 (eqs. 42 to 44). */
export const sizeExponent = (b: number): number => {
  if (b < 0.193) return 0.6 // where 0.8861 + 0.4 log B reaches 0.6003: the join is the paper's
  return b < 3.4 ? 0.8861 + 0.4 * Math.log10(b) : 1.146 - 0.0885 * Math.log10(b)
}

const LUX_AT_ZERO_MAG = -13.99 // V = 0 is 2.54e-6 lux, Crumey section 1.3

/** V magnitude of an illuminance in lux. */
export const magFromLux = (lux: number): number => LUX_AT_ZERO_MAG - 2.5 * Math.log10(lux)
