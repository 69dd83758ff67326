import { DateTime } from 'luxon'
import { radians, separationDeg } from '../sky/angles.ts'
import type { Place } from '../sky/place.ts'
import type { FaultCause, FaultQuestion, FaultThing } from './faults.ts'
import { type Keeps, type Stand, UPRIGHT } from './faults-mount.ts'

/** One way to make a mistake: what the mount then believes, how it stands, and what was centred. */
export interface Mistake {
  readonly at: Date
  readonly place: Place
  readonly stand: Stand
  readonly keeps: Keeps
  readonly centred: readonly FaultThing[]
  /** How likely this way is, among the ways to make the same mistake. */
  readonly weight: number
  /** By how much the miss varies, in degrees, since this way stands for others near it. */
  readonly spreadDeg: number
}

// Common practice, no source.
const HOURS = [
  { hours: 1, weight: 4 },
  { hours: -1, weight: 4 },
  { hours: 2, weight: 1 },
  { hours: -2, weight: 1 },
] as const
const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS
const LEAST_SIGN_DEG = 0.3
const LEAST_NEEDLE_DEG = 0.5
const LEANS = [
  { leansDeg: 1, weight: 3 },
  { leansDeg: 2, weight: 4 },
  { leansDeg: 3.5, weight: 3 },
  { leansDeg: 5.5, weight: 1 },
] as const
const TOWARDS_DEG = [0, 30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330] as const
const TURNED_DEG = [-16, -12, -8, -4, 0, 4, 8, 12, 16] as const
const TURNED_SPREAD_DEG = 8
const GRID_DEG = 5
const SITE_SPREAD_DEG = { before: 2.5, one: 4, both: 0.15 } as const
const INHABITED = { south: -55, north: 70 } as const

type Ways = (question: FaultQuestion) => readonly Partial<Mistake>[]

const laterBy = ({ at }: FaultQuestion, ms: number): Partial<Mistake> => ({ at: new Date(at.getTime() + ms) })

/** Every way to make each mistake that makes a difference at this place on this date; [] where there is none. */
const WAYS: Readonly<Record<FaultCause, Ways>> = {
  hour: (question) => HOURS.map(({ hours, weight }) => ({ ...laterBy(question, hours * HOUR_MS), weight })),
  'half-day': (question) => [laterBy(question, (localOf(question).hour < 12 ? 12 : -12) * HOUR_MS)],
  'day-month': dayMonthWays,
  'zone-sign': (question) => {
    const { offset } = localOf(question)
    return offset === 0 ? [] : [laterBy(question, 2 * offset * 60_000)]
  },
  'longitude-sign': ({ place }) =>
    isNearZero(place.longitudeDeg) ? [] : [{ place: { ...place, longitudeDeg: -place.longitudeDeg } }],
  'latitude-sign': ({ place }) =>
    isNearZero(place.latitudeDeg) ? [] : [{ place: { ...place, latitudeDeg: -place.latitudeDeg } }],
  'other-site': otherSiteWays,
  magnetic: ({ declinationDeg }) =>
    Math.abs(declinationDeg) < LEAST_NEEDLE_DEG ? [] : [{ stand: { ...UPRIGHT, turnedDeg: declinationDeg } }],
  askew: askewWays,
  // A finder that is not aligned moves nothing: it makes a small miss anywhere.
  finder: () => [{ spreadDeg: 1 }],
  'wrong-star': wrongStarWays,
}

/** Every way to make a mistake; `lights` of the question are those that could be centred in another's stead. */
export const waysOf = (cause: FaultCause, question: FaultQuestion): readonly Mistake[] => {
  const { at, place, centred } = question
  const plain = { at, place, centred, stand: UPRIGHT, keeps: 'neither' as const, weight: 1, spreadDeg: 0 }
  return WAYS[cause](question).map((way) => ({ ...plain, ...way }))
}

const isNearZero = (angleDeg: number): boolean => Math.abs(angleDeg) < LEAST_SIGN_DEG

const localOf = ({ at, zone }: FaultQuestion): DateTime => DateTime.fromJSDate(at, { zone })

/** The date with day and month swapped, at the same time by the clock; there is none when the day is no month, or the same. */
function dayMonthWays(question: FaultQuestion): readonly Partial<Mistake>[] {
  const { year, month, day } = localOf(question)
  if (day > 12 || day === month) return []
  return [
    laterBy(question, Math.round((Date.UTC(year, day - 1, month) - Date.UTC(year, month - 1, day)) / DAY_MS) * DAY_MS),
  ]
}

/** A grid over the inhabited Earth, and, together as likely, the other places that the host has. */
function otherSiteWays({ stage, otherPlaces }: FaultQuestion): readonly Partial<Mistake>[] {
  // Two centred stars leave of a wrong place only how the Moon is shifted, which varies slowly.
  const spreadDeg = SITE_SPREAD_DEG[stage]
  const grid: Partial<Mistake>[] = []
  for (let latitudeDeg = INHABITED.south; latitudeDeg <= INHABITED.north; latitudeDeg += GRID_DEG) {
    for (let longitudeDeg = -180; longitudeDeg < 180; longitudeDeg += GRID_DEG) {
      grid.push({
        place: { latitudeDeg, longitudeDeg, heightM: 0 },
        weight: Math.cos(radians(latitudeDeg)),
        spreadDeg,
      })
    }
  }
  const together = grid.reduce((sum, { weight = 0 }) => sum + weight, 0)
  return [...grid, ...otherPlaces.map((place) => ({ place, weight: together / otherPlaces.length }))]
}

/** A base that leans, and before the first star one that is turned as well. */
function askewWays({ stage }: FaultQuestion): readonly Partial<Mistake>[] {
  if (stage === 'both') return []
  const turns = stage === 'before' ? TURNED_DEG : [0]
  return turns.flatMap((turnedDeg) =>
    LEANS.flatMap(({ leansDeg, weight }) =>
      TOWARDS_DEG.map((towardsDeg) => ({
        stand: { turnedDeg, leansDeg, towardsDeg },
        weight: weight * Math.exp(-0.5 * (turnedDeg / TURNED_SPREAD_DEG) ** 2),
        spreadDeg: stage === 'before' ? 1.2 : 0.6,
      })),
    ),
  )
}

/** Each of the centred stars taken for each light that may be taken for it. */
function wrongStarWays({ centred, lights }: FaultQuestion): readonly Partial<Mistake>[] {
  return centred.flatMap((star, index) =>
    lights
      .filter(({ key }) => centred.every((other) => other.key !== key))
      .filter((light) => mayBeTakenFor(light, star))
      .flatMap((light) => KEEPS.map((keeps) => ({ centred: centred.with(index, light), keeps }))),
  )
}

const KEEPS = ['neither', 'first', 'second'] as const
const TAKEN_MAG = 1.5
const TAKEN_DEG = 30

/** True for a star near another and not much fainter. */
function mayBeTakenFor(light: FaultThing, star: FaultThing): boolean {
  if (typeof light.place === 'string' || typeof star.place === 'string') return false
  if (light.magnitude > star.magnitude + TAKEN_MAG) return false
  return separationDeg(light.place.raDeg, light.place.decDeg, star.place.raDeg, star.place.decDeg) <= TAKEN_DEG
}
