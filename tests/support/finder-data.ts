import { bodyLook } from '../../server/sky/body.ts'
import { apparentAltitudeDeg } from '../../server/sky/refraction.ts'
import { starHorizontal } from '../../server/sky/star.ts'
import { placeOf, type Site } from '../../server/tours/site.ts'
import { isForTelescopes, type ShowObject } from '../../server/tours/target.ts'
import { OUTREACH } from './evenings.ts'

const site = (given: Partial<Site>): Site => ({
  id: 'finder',
  name: 'A meadow',
  latitudeDeg: 48,
  longitudeDeg: 11,
  heightM: 500,
  zone: 'Europe/Berlin',
  skyMag: 20,
  horizon: [],
  glow: [],
  ...given,
})

export const NORTHERN = site({})
export const SOUTHERN = site({ latitudeDeg: -34, longitudeDeg: 151, zone: 'Australia/Sydney' })
/** A site with trees all around, higher in the east and the west. */
export const WOODED = site({
  horizon: [
    { azimuthDeg: 0, altitudeDeg: 12, name: 'wood' },
    { azimuthDeg: 90, altitudeDeg: 32, name: 'oak' },
    { azimuthDeg: 180, altitudeDeg: 14, name: 'hedge' },
    { azimuthDeg: 270, altitudeDeg: 28, name: 'barn' },
  ],
})

/** Everything of the list that stands still and that a telescope may show. */
const fixedObjects = (): readonly ShowObject[] =>
  OUTREACH.filter((object) => isForTelescopes(object) && object.raDeg !== null && object.body === null)

const HOUR_MS = 3_600_000
const NIGHTS = Array.from({ length: 12 }, (_, month) => Date.UTC(2026, month, 14, 12))
const HOURS = [-2, 0, 2, 4].map((hour) => 12 + hour)

/** Where a thing that stands still is seen, by the sky floor alone. */
export function seenAt(object: ShowObject, at: Date, from: Site) {
  const place = { ...object, raDeg: object.raDeg ?? 0, decDeg: object.decDeg ?? 0 }
  const { altitudeDeg, azimuthDeg } = starHorizontal(place, at, placeOf(from))
  return { altitudeDeg: apparentAltitudeDeg(altitudeDeg), azimuthDeg }
}

interface Moment {
  readonly at: Date
  readonly site: Site
}

/** Each thing at the first dark moment of 2026 at which it stands well up, and from where; those that never do are left out. */
export function goodMoments(sites: readonly Site[]): readonly (Moment & { readonly object: ShowObject })[] {
  const dark = sites.flatMap(darkMoments)
  return fixedObjects().flatMap((object) => {
    const moment = dark.find(({ at, site: from }) => seenAt(object, at, from).altitudeDeg >= 36)
    return moment === undefined ? [] : [{ object, ...moment }]
  })
}

const darkMoments = (from: Site): readonly Moment[] =>
  NIGHTS.flatMap((noonMs) => HOURS.map((hours) => new Date(noonMs + (hours - from.longitudeDeg / 15) * HOUR_MS)))
    .filter((at) => bodyLook('sun', at, placeOf(from)).altitudeDeg < -12)
    .map((at) => ({ at, site: from }))
