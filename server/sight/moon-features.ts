import { radians } from '../sky/angles.ts'
import { type MoonFace, sunAltitudeAtFeature } from '../sky/moon-face.ts'
import { ramp } from './ramp.ts'

export const MOON_FEATURE_KINDS = [
  'crater',
  'peak-crater',
  'walled-plain',
  'mountains',
  'scarp',
  'valley',
  'rille',
  'dome',
  'ridge',
  'bay',
  'sea',
  'rays',
] as const
type MoonFeatureKind = (typeof MOON_FEATURE_KINDS)[number]

/** Something to look for on the Moon: selenographic place in degrees (longitude EAST positive), its width or length, and between which heights of the Sun over it it looks best. */
export interface MoonFeature {
  /** As it is said to visitors; `official` is the name on maps (of the crater beside it, where it has none of its own). */
  readonly name: string
  readonly official: string
  readonly kind: MoonFeatureKind
  readonly longitudeDeg: number
  readonly latitudeDeg: number
  readonly diameterKm: number
  readonly bestFromDeg: number
  readonly bestToDeg: number
  /** One plain sentence for a visitor. */
  readonly see: string
}

/** A feature as it is lit: Sun over it in degrees, and how well it shows for its kind and place, 0 to 1. */
export interface LitFeature extends MoonFeature {
  readonly sunAltitudeDeg: number
  readonly worth: number
}

type Facing = Pick<MoonFace, 'colongitudeDeg' | 'sunLatitudeDeg' | 'librationLongitudeDeg' | 'librationLatitudeDeg'>

/** Under this a Sun casts shadows that make a form (1 degree makes a shadow 57 times as long as a wall is high, 10 degrees 6 times). */
export const RELIEF_SUN_DEG = 16
const LEAST_WORTH = 0.1

/** The features that are lit well at that face, best first (of two equals the larger); a feature on the night side or the far side is left out. */
export function featuresTonight(face: Facing, features: readonly MoonFeature[]): readonly LitFeature[] {
  return features
    .map((feature) => lit(face, feature))
    .filter(({ worth }) => worth >= LEAST_WORTH)
    .sort((a, b) => b.worth - a.worth || b.diameterKm - a.diameterKm)
}

function lit(face: Facing, feature: MoonFeature): LitFeature {
  const { longitudeDeg, latitudeDeg, diameterKm } = feature
  const sunAltitudeDeg = sunAltitudeAtFeature(face, longitudeDeg, latitudeDeg)
  const large = 0.6 + 0.4 * ramp(Math.log10(diameterKm), 1, 2)
  const worth = wellLit(feature, sunAltitudeDeg) * facing(face, feature) * large
  return { ...feature, sunAltitudeDeg, worth }
}

/** 1 between the heights at which it looks best, falling to 0 at half the lower and one and a half times the upper (a choice); the Sun must be up. */
function wellLit({ bestFromDeg, bestToDeg }: MoonFeature, sunAltitudeDeg: number): number {
  const high = bestToDeg >= 90 ? 1 : 1 - ramp(sunAltitudeDeg, bestToDeg, 1.5 * bestToDeg)
  return ramp(sunAltitudeDeg, bestFromDeg / 2, bestFromDeg) * high
}

/** How far it faces the Earth: 0 at the limb and beyond, 1 where it is foreshortened by less than a half. */
function facing(face: Facing, { longitudeDeg, latitudeDeg }: MoonFeature): number {
  const [mid, lat] = [radians(face.librationLatitudeDeg), radians(latitudeDeg)]
  const apart = radians(longitudeDeg - face.librationLongitudeDeg)
  const cosine = Math.sin(mid) * Math.sin(lat) + Math.cos(mid) * Math.cos(lat) * Math.cos(apart)
  return ramp(cosine, 0.1, 0.5)
}

/** How much stands in relief: the worth of all features under a low Sun added up, 0 or more. */
export const reliefOf = (features: readonly LitFeature[]): number =>
  features.reduce((sum, { sunAltitudeDeg, worth }) => sum + (sunAltitudeDeg < RELIEF_SUN_DEG ? worth : 0), 0)
