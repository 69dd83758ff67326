import type { MoonFeature } from '../sight/moon-features.ts'
import type { BodyKey } from '../sky/body.ts'

/** What a telescope shows to the public. */
export const TELESCOPE_KINDS = [
  'moon',
  'planet',
  'star',
  'red-star',
  'double',
  'open-cluster',
  'globular',
  'galaxy',
  'planetary',
  'nebula',
  'remnant',
  'asterism',
  'comet',
] as const
export type TelescopeKind = (typeof TELESCOPE_KINDS)[number]

/** What is on the list beside the telescopes: seen with a planet, or by bare eyes. */
const BESIDE_KINDS = ['planet-moon', 'meteor-shower', 'bare-eye'] as const

export const OBJECT_KINDS = [...TELESCOPE_KINDS, ...BESIDE_KINDS] as const
export type ObjectKind = (typeof OBJECT_KINDS)[number]

/** When meteors of one shower fall, by the Sun's ecliptic longitude (J2000) in degrees: it repeats from year to year where dates do not. */
export interface Shower {
  readonly peakSunDeg: number
  readonly fromSunDeg: number
  readonly toSunDeg: number
  /** Meteors an hour for one observer under a perfect sky with the radiant overhead. */
  readonly zhr: number
  readonly speedKmS: number
}

/** One thing of the outreach list, as the catalogue holds it. Places are ICRS at epoch J2000.0; null where a body moves or a value has no meaning. */
export interface ShowObject {
  readonly key: string
  readonly name: string
  readonly designations: readonly string[]
  readonly kind: ObjectKind
  readonly body: BodyKey | null
  /** The planet that a moon goes round. */
  readonly parent: BodyKey | null
  readonly raDeg: number | null
  readonly decDeg: number | null
  readonly pmRaMasYr: number
  readonly pmDecMasYr: number
  readonly parallaxMas: number
  /** IAU three-letter code, or null for bodies that wander. */
  readonly constellation: string | null
  readonly magnitude: number | null
  readonly magnitudeBand: 'V' | 'B' | 'mean V' | null
  /** Brightest and faintest V of a variable. */
  readonly magnitudeRange: readonly [number, number] | null
  readonly bv: number | null
  /** The part that an eye sees, in arcminutes. */
  readonly majorArcmin: number | null
  readonly minorArcmin: number | null
  readonly halfLightArcmin: number | null
  /** V of a globular cluster's horizontal branch. */
  readonly branchMag: number | null
  /** A galaxy's bright heart. */
  readonly coreMagnitude: number | null
  readonly coreArcmin: number | null
  /** How condensed a comet's coma is, 0 (an even glow) to 9 (like a star). */
  readonly condensation: number | null
  readonly angleDeg: number | null
  readonly brightestStarMag: number | null
  readonly starCount: number | null
  /** V of a cluster's stars as far as the star table holds them all (to V 7), brightest first. */
  readonly starMagnitudes: readonly number[]
  readonly componentMagnitudes: readonly [number, number] | null
  readonly separationArcsec: number | null
  readonly pairAngleDeg: number | null
  readonly pairYear: number | null
  /** Colours of the two stars in plain words. */
  readonly colours: readonly [string, string] | null
  /** Hipparcos numbers of an asterism's stars. */
  readonly hips: readonly number[]
  /** True field needed to show the whole of it, in degrees. */
  readonly fieldDeg: number | null
  /** What to look for on it: the Moon's alone. */
  readonly features: readonly MoonFeature[]
  readonly shower: Shower | null
  readonly distanceLy: number | null
  /** How far off the distance may be, in per cent. */
  readonly distancePercent: number | null
  /** Age in millions of years, where it is known and worth telling. */
  readonly ageMyr: number | null
  /** What a reader of the row must know, as a sentence. */
  readonly note: string | null
  /** Delight for a newcomer, 0 to 1, apart from whether it is seen; with its reason. */
  readonly appeal: number
  readonly appealReason: string
  /** How many telescopes may show it at once. */
  readonly atOnce: number
  /** Column name to source. */
  readonly sources: Readonly<Record<string, string>>
}

/** True for what a telescope may be given to show. */
export const isForTelescopes = ({ kind }: Pick<ShowObject, 'kind'>): boolean =>
  TELESCOPE_KINDS.some((it) => it === kind)

/** The whole of a thing, or a part of it at high power. A whole Moon and a close Moon are two views. */
export type Aim = 'whole' | 'close'

/** What is said of a thing, in one language, each part with its source. */
export interface Story {
  readonly key: string
  readonly language: string
  readonly see: string
  readonly lookFor: string
  readonly how: string
  /** '' where the only number worth telling is the age of its light, which is computed. */
  readonly compare: string
  readonly answer: string
  readonly children: string
  readonly more: string
  readonly sources: Readonly<Record<string, string>>
}

/** A row of the catalogue as search answers it: outreach objects first, then stars with a designation. */
export interface ObjectHit {
  readonly key: string
  readonly name: string
  readonly kind: ObjectKind
  readonly constellation: string | null
  readonly magnitude: number | null
  readonly raDeg: number | null
  readonly decDeg: number | null
  readonly isOutreach: boolean
  /** The other name, or the part of it, that the question named. */
  readonly called?: string
}

/** A thing of the outreach list beside another, and how far away on the sky. */
export interface Neighbour {
  readonly object: ShowObject
  readonly separationDeg: number
}
