import type { BodyKey } from '../sky/body.ts'
import type { LitFeature } from './moon-features.ts'
import type { PlanetMoon } from './planet-moons.ts'

/** A single star; `bv` is its colour index B - V, null when unknown. */
export interface StarSubject {
  readonly kind: 'star'
  readonly magnitude: number
  readonly bv: number | null
  readonly isRed: boolean
}
/** Two stars close together, brighter one first. */
export interface DoubleSubject {
  readonly kind: 'double'
  readonly magnitudes: readonly [number, number]
  readonly separationArcsec: number
  readonly hasColourContrast: boolean
}
/** Magnitude is of all its stars together; the brightest star and the count are null when unknown. */
export interface OpenClusterSubject {
  readonly kind: 'open-cluster'
  readonly magnitude: number
  readonly diameterArcmin: number
  readonly brightestStarMag: number | null
  readonly starCount: number | null
  /** The stars in it that a catalogue complete to V 7 holds, brightest first; left out where it has too few. */
  readonly starMags?: readonly number[]
}
/** `halfLightArcmin` is the radius that holds half of the light. */
export interface GlobularSubject {
  readonly kind: 'globular'
  readonly magnitude: number
  readonly halfLightArcmin: number
  /** V of its horizontal branch; left out or null where unknown. */
  readonly branchMag?: number | null
}
/** A bright heart that the fading disc around it does not tell of. */
export interface GalaxyCore {
  readonly magnitude: number
  readonly diameterArcmin: number
}
/** Total magnitude and size on the sky. */
export interface GalaxySubject {
  readonly kind: 'galaxy'
  readonly magnitude: number
  readonly majorArcmin: number
  readonly minorArcmin: number
  readonly core?: GalaxyCore | null
}
/** A cloud of gas: magnitude and size of its bright part. */
export interface CloudSubject {
  readonly kind: 'planetary' | 'nebula' | 'remnant'
  readonly magnitude: number
  readonly majorArcmin: number
  readonly minorArcmin: number
}
/** A comet: total magnitude, width of the coma, and how condensed it is on the observers' scale, 0 (even glow) to 9 (like a star). */
export interface CometSubject {
  readonly kind: 'comet'
  readonly magnitude: number
  readonly comaArcmin: number
  readonly condensation: number
}
/** A pattern of stars: magnitude of all together, and the true field in degrees that shows the whole of it. */
export interface AsterismSubject {
  readonly kind: 'asterism'
  readonly magnitude: number
  readonly fieldDeg: number
}
/** A planet as it is that night; ring axes are 0 for all but Saturn. */
export interface PlanetSubject {
  readonly kind: 'planet'
  readonly body: BodyKey
  readonly magnitude: number
  readonly diameterArcsec: number
  readonly litFraction: number
  readonly ringMajorArcsec: number
  readonly ringMinorArcsec: number
  /** Moons that a small telescope may show; left out where nobody asks. */
  readonly moons?: readonly PlanetMoon[]
}
/** The Moon as it is that night; phase angle 0 is full, 180 is new. */
export interface MoonSubject {
  readonly kind: 'moon'
  readonly litFraction: number
  readonly phaseAngleDeg: number
  readonly diameterArcmin: number
  /** What is lit well on it, best first; left out where no list is at hand. */
  readonly features?: readonly LitFeature[]
}

/** What the sight floor needs to know of a thing. Magnitudes are V outside the air. */
export type Subject =
  | StarSubject
  | DoubleSubject
  | OpenClusterSubject
  | GlobularSubject
  | GalaxySubject
  | CloudSubject
  | CometSubject
  | AsterismSubject
  | PlanetSubject
  | MoonSubject
