import { type Static, Type } from 'typebox'
import { skyMagOfClass } from '../sight/site-light.ts'
import type { Place } from '../sky/place.ts'

/** One corner of the skyline: how high what stands at this compass point reaches, and what it is ("oak", "gym roof"). */
export const SkylinePoint = Type.Object({
  azimuthDeg: Type.Number({ minimum: 0, exclusiveMaximum: 360 }),
  altitudeDeg: Type.Number({ minimum: 0, maximum: 60 }),
  name: Type.String({ maxLength: 40 }),
})
export type SkylinePoint = Static<typeof SkylinePoint>

/** A part of the compass where the sky is brighter than the rest, by so many magnitudes per square arcsecond near the horizon. */
export const GlowSector = Type.Object({
  fromDeg: Type.Number({ minimum: 0, exclusiveMaximum: 360 }),
  toDeg: Type.Number({ minimum: 0, exclusiveMaximum: 360 }),
  brighterMag: Type.Number({ minimum: 0, maximum: 4 }),
})
export type GlowSector = Static<typeof GlowSector>

/** What a host says of a place. Latitude north, longitude east positive, in degrees; height in metres; zone by its IANA name. */
export const SiteDraft = Type.Object({
  name: Type.String({ minLength: 1, maxLength: 80 }),
  latitudeDeg: Type.Number({ minimum: -90, maximum: 90 }),
  longitudeDeg: Type.Number({ minimum: -180, maximum: 180 }),
  heightM: Type.Number({ minimum: -430, maximum: 6000 }),
  zone: Type.String({ minLength: 1, maxLength: 60 }),
  skyMag: Type.Number({ minimum: 15, maximum: 22 }),
  horizon: Type.Array(SkylinePoint, { maxItems: 72 }),
  glow: Type.Array(GlowSector, { maxItems: 8 }),
})
export type SiteDraft = Static<typeof SiteDraft>

export interface Site extends Readonly<SiteDraft> {
  readonly id: string
}

/** The site as a place of the sky floor. */
export const placeOf = (site: SiteDraft): Place => ({
  latitudeDeg: site.latitudeDeg,
  longitudeDeg: site.longitudeDeg,
  heightM: site.heightM,
})

/** The classes of sky brightness, darkest first. */
export const SKY_CLASSES = [1, 2, 3, 4, 5, 6, 7, 8, 9] as const

/** Where nobody has said how dark it is: a small town, or the edge of a larger one (a choice, no source). */
export const ASSUMED_SKY_CLASS = 6

/** The class, 1 to 9, whose usual sky is nearest to one of `skyMag` magnitudes per square arcsecond. */
export function nearestSkyClass(skyMag: number): number {
  const away = (skyClass: number): number => Math.abs(skyMagOfClass(skyClass) - skyMag)
  return SKY_CLASSES.reduce<number>((best, skyClass) => (away(skyClass) < away(best) ? skyClass : best), 1)
}

/** A town of the offline gazetteer. */
export interface Town {
  readonly name: string
  readonly country: string
  readonly region: string
  readonly latitudeDeg: number
  readonly longitudeDeg: number
  readonly heightM: number
  readonly zone: string
}
