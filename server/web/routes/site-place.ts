import { zoneOf } from '../../desk/zone-of.ts'
import type { Problem } from '../../errors.ts'
import { wrap180 } from '../../sky/angles.ts'
import { isZone } from '../../tours/hours.ts'
import type { Site } from '../../tours/site.ts'
import { haveSameClocks } from '../../tours/zone-clocks.ts'
import { readPlace } from '../../words/coordinates.ts'
import type { Words } from '../../words/words.ts'
import { type FormValues, numberOf } from './form-values.ts'

type Spot = Pick<Site, 'latitudeDeg' | 'longitudeDeg'>

/** Place and zone of a site's form, with what is wrong with them in the words of the form. */
export interface TypedSpot extends Spot {
  readonly zone: string
  readonly problems: readonly Problem[]
}

interface Reading {
  readonly words: Words
  readonly now: Date
  /** The site as it was kept before, whose zone was settled then; null for a new one. */
  readonly before: Site | null
}

/** Reads the place; a zone left blank is that of the place, a typed one is held against it unless the host keeps it nevertheless. */
export function typedSpot(values: FormValues, { words, now, before }: Reading): TypedSpot {
  const { latitudeDeg: latitude = '', longitudeDeg: longitude = '' } = values
  const { problems, ...spot } = readPlace(words, { latitude, longitude })
  const typed = (values.zone ?? '').trim()
  const unknown = typed === '' || isZone(typed) ? [] : [{ field: 'zone', key: 'problem.zone-unknown' }]
  if (problems.length + unknown.length > 0) return { ...spot, zone: typed, problems: [...problems, ...unknown] }
  const placeZone = zoneOf(spot.latitudeDeg, spot.longitudeDeg)
  const zone = typed === '' ? placeZone : typed
  const settled = before !== null && before.zone === zone && isSameSpot(before, spot)
  const swapped = settled ? [] : swappedByTown(values, spot)
  if (swapped.length > 0 || settled || values.keepZone === 'true') return { ...spot, zone, problems: swapped }
  return { ...spot, zone, problems: zoneProblems(spot, zone, placeZone, now) }
}

const isSameSpot = (a: Spot, b: Spot): boolean => a.latitudeDeg === b.latitudeDeg && a.longitudeDeg === b.longitudeDeg

function zoneProblems(spot: Spot, zone: string, placeZone: string, now: Date): Problem[] {
  if (haveSameClocks(zone, placeZone, now)) return []
  const values = { zone, place: placeZone }
  const fits = (other: Spot | null): boolean =>
    other !== null && haveSameClocks(zone, zoneOf(other.latitudeDeg, other.longitudeDeg), now)
  const elsewhere = { field: 'zone', key: 'problem.zone-elsewhere', values }
  if (fits(turnedRound(spot))) {
    return [{ field: 'latitudeDeg', key: 'problem.place-swapped-zone', values }, elsewhere]
  }
  const isMirrored = fits({ ...spot, longitudeDeg: -spot.longitudeDeg })
  return isMirrored ? [{ field: 'longitudeDeg', key: 'problem.place-mirrored', values }, elsewhere] : [elsewhere]
}

/** A place that lies at the town it was filled in from only when it is turned round. */
function swappedByTown(values: FormValues, spot: Spot): Problem[] {
  const town = {
    latitudeDeg: numberOf(values['town.latitudeDeg']),
    longitudeDeg: numberOf(values['town.longitudeDeg']),
  }
  const turned = turnedRound(spot)
  if (turned === null || !isNear(turned, town) || isNear(spot, town)) return []
  return [{ field: 'latitudeDeg', key: 'problem.place-swapped-town', values: { town: values['town.name'] ?? '' } }]
}

const turnedRound = ({ latitudeDeg, longitudeDeg }: Spot): Spot | null =>
  Math.abs(longitudeDeg) > 90 ? null : { latitudeDeg: longitudeDeg, longitudeDeg: latitudeDeg }

const NEAR_DEG = 2
const isNear = (a: Spot, b: Spot): boolean =>
  Math.abs(a.latitudeDeg - b.latitudeDeg) < NEAR_DEG && Math.abs(wrap180(a.longitudeDeg - b.longitudeDeg)) < NEAR_DEG
