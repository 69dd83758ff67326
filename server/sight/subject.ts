import type { BodyKey } from '../sky/body.ts'

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
}
/** `halfLightArcmin` is the radius that holds half of the light. */
export interface GlobularSubject {
  readonly kind: 'globular'
  readonly magnitude: number
  readonly halfLightArcmin: number
}
/** Total magnitude and size on the sky. */
export interface GalaxySubject {
  readonly kind: 'galaxy'
  readonly magnitude: number
  readonly majorArcmin: number
  readonly minorArcmin: number
}
/** A cloud of gas: magnitude and size of its bright part. */
export interface CloudSubject {
  readonly kind: 'planetary' | 'nebula' | 'remnant'
  readonly magnitude: number
  readonly majorArcmin: number
  readonly minorArcmin: number
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
}
/** The Moon as it is that night; phase angle 0 is full, 180 is new. */
export interface MoonSubject {
  readonly kind: 'moon'
  readonly litFraction: number
  readonly phaseAngleDeg: number
  readonly diameterArcmin: number
}

/** What the sight floor needs to know of a thing. Magnitudes are V outside the air. */
export type Subject =
  | StarSubject
  | DoubleSubject
  | OpenClusterSubject
  | GlobularSubject
  | GalaxySubject
  | CloudSubject
  | AsterismSubject
  | PlanetSubject
  | MoonSubject
