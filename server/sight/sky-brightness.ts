import type { Conditions } from './conditions.ts'
import { magFromCd } from './luminance.ts'
import { moonlightCd } from './moonlight.ts'
import { siteCd } from './site-light.ts'
import { twilightCd } from './twilight.ts'

/** Where the target stands and what lights the sky there. In degrees: the target as seen (refracted), Sun and Moon without refraction; separations are from the target as seen. */
export interface SkyGeometry {
  readonly altitudeDeg: number
  readonly azimuthDeg: number
  readonly sunAltitudeDeg: number
  readonly sunSeparationDeg: number
  /** Null where there is no Moon to reckon with. */
  readonly moon: MoonGeometry | null
}

/** The Moon beside the target; phase angle 0 is full, 180 is new. */
export interface MoonGeometry {
  readonly altitudeDeg: number
  readonly phaseAngleDeg: number
  readonly distanceKm: number
  readonly separationDeg: number
}

/** The sky's luminance at the target by its parts, in cd/m^2, and the whole of it in V magnitudes per square arcsecond. */
export interface SkyParts {
  readonly siteCd: number
  readonly moonCd: number
  readonly twilightCd: number
  readonly totalCd: number
  readonly magPerArcsec2: number
}

const moonPart = ({ moon, altitudeDeg }: SkyGeometry, conditions: Conditions): number =>
  moon === null ? 0 : moonlightCd(moon, altitudeDeg, conditions.extinctionMag)

const twilightPart = (geometry: SkyGeometry, conditions: Conditions): number =>
  twilightCd(geometry.sunAltitudeDeg, geometry.altitudeDeg, geometry.sunSeparationDeg, conditions.extinctionMag)

/** The sky's light at the target in cd/m^2: site, Moon and twilight together, without taking them apart. */
export const skyCd = (geometry: SkyGeometry, conditions: Conditions): number =>
  siteCd(geometry.altitudeDeg, geometry.azimuthDeg, conditions) +
  moonPart(geometry, conditions) +
  twilightPart(geometry, conditions)

/** The sky's light at the target, by its parts. */
export function skyBrightness(geometry: SkyGeometry, conditions: Conditions): SkyParts {
  const site = siteCd(geometry.altitudeDeg, geometry.azimuthDeg, conditions)
  const moon = moonPart(geometry, conditions)
  const twilight = twilightPart(geometry, conditions)
  const totalCd = site + moon + twilight
  return { siteCd: site, moonCd: moon, twilightCd: twilight, totalCd, magPerArcsec2: magFromCd(totalCd) }
}
