import { starNames, starRows } from '../../db/catalogue/rows.ts'
import type { BrightStar } from '../../server/tours/alignment-lights.ts'

/** The stars of V 3 or brighter from the tables that ship, brightest first. */
export function brightStars(): readonly BrightStar[] {
  const names = starNames()
  return [...starRows().values()]
    .filter(({ magnitude }) => magnitude <= 3)
    .sort((a, b) => a.magnitude - b.magnitude)
    .map(({ hip, magnitude, bv, ...place }) => ({
      key: `hip${hip}`,
      name: names.get(hip)?.name ?? '',
      magnitude,
      bv,
      place,
    }))
}
