import { constellationOf } from '../../../server/sky/constellation.ts'
import { csvOf, skyText } from './package.ts'

/** A star as the package gives it: Hipparcos number, ICRS place at epoch 2000.0 (right ascension 0 to 360), V and B-V ('' where unknown). */
export interface SkyStar {
  readonly hip: number
  readonly raDeg: number
  readonly decDeg: number
  readonly magnitude: number
  readonly bv: string
}

interface StarFeature {
  readonly id: number
  readonly properties: { readonly mag: number; readonly bv: string }
  readonly geometry: { readonly coordinates: readonly [number, number] }
}

/** Longitudes of the package run from -180 to 180; the catalogue's run from 0 up to 360, kept to the package's four digits. */
export const eastward = (longitudeDeg: number): number => Number(((longitudeDeg + 360) % 360).toFixed(4))

/** Every star to V 8, by Hipparcos number. */
export function skyStars(): readonly SkyStar[] {
  const { features }: { features: readonly StarFeature[] } = JSON.parse(skyText('stars.8.json'))
  return features
    .map(({ id, properties, geometry }) => ({
      hip: id,
      raDeg: eastward(geometry.coordinates[0]),
      decDeg: geometry.coordinates[1],
      magnitude: properties.mag,
      bv: properties.bv,
    }))
    .sort((a, b) => a.hip - b.hip)
}

/** `stars.csv`: the constellation is computed from the place, since the package's own column has faults. */
export const starsCsv = (stars: readonly SkyStar[]): string =>
  csvOf(
    ['hip', 'ra_deg', 'dec_deg', 'v', 'bv', 'constellation'],
    stars.map(({ hip, raDeg, decDeg, magnitude, bv }) => [
      hip,
      raDeg,
      decDeg,
      magnitude,
      bv,
      constellationOf(raDeg, decDeg),
    ]),
  )
