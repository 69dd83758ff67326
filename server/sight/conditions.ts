/** A part of the compass that is brighter by so many magnitudes per square arcsecond near the horizon; it may run through north. */
export interface Glow {
  readonly fromDeg: number
  readonly toDeg: number
  readonly brighterMag: number
}

/** What the night, the place and the public are like. */
export interface Conditions {
  /** Night sky at the zenith without Moon or twilight, in V magnitudes per square arcsecond. */
  readonly zenithMag: number
  /** Extinction in V, magnitudes per airmass: 0.15 on a mountain, 0.2 in good air, 0.28 usual, 0.4 to 0.6 in haze. */
  readonly extinctionMag: number
  /** Width of a star's image at the zenith, full width at half maximum, in arcseconds. */
  readonly seeingArcsec: number
  /** Thin cloud as a share, 0 clear to 1. */
  readonly thinCloud: number
  /** How many times the laboratory threshold a newcomer needs, 2.4 to 5. */
  readonly noviceFactor: number
  /** Eyes that look at once: 1 at an eyepiece, 2 through binoculars. */
  readonly eyes: 1 | 2
  /** Width of the visitors' own pupils in the dark, in mm. */
  readonly pupilMm: number
  /** Share of the visitors who have just looked at the Moon, 0 to 1. */
  readonly moonGazerShare: number
  /** True when a lamp shines on the people at the telescope. */
  readonly streetLight: boolean
  readonly glow: readonly Glow[]
}

/** A suburb at sea level with a mixed public. */
export const DEFAULT_CONDITIONS: Conditions = {
  zenithMag: 19.5,
  // Hayes & Latham, ApJ 197 (1975), 593, sea level: 0.1451 + 0.016 + 0.120. Schaefer 1993 has 0.1066 for the first part,
  // at 0.55 instead of 0.51 micrometres: 0.05 less in all.
  extinctionMag: 0.28,
  seeingArcsec: 2.5,
  thinCloud: 0,
  noviceFactor: 4, // Crumey 2014 (field factor 2) x Schaefer 1990 (novice 2.09); Blackwell routes give 3.9
  eyes: 1,
  pupilMm: 6,
  moonGazerShare: 0,
  streetLight: false,
  glow: [],
}

const YOUNGEST_YEARS = 20

/**
 * Width of a pupil in the dark in mm by age in years: 7 exp(-0.5 (age/100)^2), Schaefer, PASP 102 (1990), 212. Watson &
 * Yellott, J. Vision 12(10) (2012), 12, give 8.2 instead of 6.9 mm at 20 and the same at 80; a telescope hardly tells the two
 * apart. Neither has children: under 20 the value of 20 holds, and nothing else about their eyes is published for an eyepiece.
 */
export const pupilOfAge = (years: number): number => 7 * Math.exp(-0.5 * (Math.max(YOUNGEST_YEARS, years) / 100) ** 2)
