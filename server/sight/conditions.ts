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
  /** Extinction in V, magnitudes per airmass. */
  readonly extinctionMag: number
  /** Width of a star's image at the zenith, full width at half maximum, in arcseconds. */
  readonly seeingArcsec: number
  /** Thin cloud as a share, 0 clear to 1. */
  readonly thinCloud: number
  /** How many times the laboratory threshold a newcomer needs, 2.4 to 5. */
  readonly noviceFactor: number
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
  extinctionMag: 0.28, // Hayes & Latham 1975, sea level: 0.1451 + 0.016 + 0.120
  seeingArcsec: 2.5,
  thinCloud: 0,
  noviceFactor: 4, // Crumey 2014 (field factor 2) x Schaefer 1990 (novice 2.09); Blackwell routes give 3.9
  pupilMm: 6,
  moonGazerShare: 0,
  streetLight: false,
  glow: [],
}
