import { bodyLook } from '../../server/sky/body.ts'
import type { Night, Station } from '../../server/tours/night.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import type { Telescope } from '../../server/tours/telescope.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { bestSeen, minutesAfter, seenPlace, seenThrough, treesDeg } from './checker-sky.ts'

/** A programme to be checked from its stops alone, with the list of objects it may have drawn from. */
export interface Checked {
  readonly night: Night
  readonly objects: readonly ShowObject[]
  readonly stops: readonly Stop[]
  readonly opensAt: Date
  readonly closesAt: Date
}

export type Showing = Stop & { readonly object: ShowObject; readonly station: Station; readonly telescope: Telescope }

/** Everything that a programme gets wrong, as sentences; [] when it keeps every rule at every fifth minute. */
export function breachesOf(checked: Checked): readonly string[] {
  const stops = checked.stops.map((stop) => showingOf(checked, stop))
  const minutes = (checked.closesAt.getTime() - checked.opensAt.getTime()) / 60_000
  const times = Array.from({ length: minutes / 5 }, (_, k) => minutesAfter(checked.opensAt, 5 * k + 1))
  return [
    ...stops.flatMap((stop) => placeBreaches(checked, stop)),
    ...startBreaches(checked, stops),
    ...times.flatMap((at) => rowBreaches(checked, stops, at)),
  ]
}

export function showingOf({ night, objects }: Checked, stop: Stop): Showing {
  const object = objects.find(({ key }) => key === stop.targetKey)
  const station = night.stations.find(({ id }) => id === stop.stationId)
  if (object === undefined || !station?.telescope) throw new Error(`A stop out of nowhere: ${stop.targetKey}`)
  return { ...stop, object, station, telescope: station.telescope }
}

/** Every fifth minute of a stop: clear of the trees, under the ceiling, the Sun down, seen more often than not. */
function placeBreaches({ night }: Checked, stop: Showing): string[] {
  const count = (stop.endsAt.getTime() - stop.startsAt.getTime()) / 300_000
  const { object, telescope } = stop
  return Array.from({ length: count + 1 }, (_, k) => minutesAfter(stop.startsAt, 5 * k)).flatMap((at) => {
    const { altitudeDeg, azimuthDeg } = seenPlace(object, at, night)
    const floorDeg = Math.max(10, telescope.floorDeg, treesDeg(night, azimuthDeg) + 2)
    const where = `${object.key} at ${at.toISOString()}`
    const setup = stop.setups[0]
    if (setup === undefined) return [`${where} has no eyepiece`]
    return [
      ...(altitudeDeg < floorDeg - 0.02 ? [`${where} stands behind the trees or too low`] : []),
      ...(altitudeDeg > telescope.ceilingDeg + 0.02 ? [`${where} stands too high`] : []),
      ...(bodyLook('sun', at, night.site).altitudeDeg > -0.8 ? [`${where} is offered by day`] : []),
      ...(seenThrough(object, at, night, telescope, setup).chance < 0.49 ? [`${where} is too faint`] : []),
    ]
  })
}

/** Quarter hours, no overlap, four moves at most, and neighbours never at the same quarter but the first. */
function startBreaches(checked: Checked, stops: readonly Showing[]): string[] {
  const said: string[] = []
  for (const stop of stops) {
    if (stop.startsAt.getTime() % 900_000 !== 0) said.push(`${stop.targetKey} starts off the quarter`)
    const here = stops.filter(({ stationId }) => stationId === stop.stationId)
    if (here.some((other) => other !== stop && other.startsAt < stop.endsAt && stop.startsAt < other.endsAt)) {
      said.push(`${stop.targetKey} overlaps another stop`)
    }
    if (here.length > 5) said.push(`${stop.station.name} moves more than four times`)
    const beside = stops.filter(
      ({ station, startsAt }) => isNext(checked, stop.station, station) && +startsAt === +stop.startsAt,
    )
    if (beside.length > 0 && stop.startsAt > checked.opensAt)
      said.push(`${stop.targetKey} starts together with its neighbour`)
  }
  return said
}

/** True when `b` stands right after `a` in the row. */
function isNext({ night }: Checked, a: Station, b: Station): boolean {
  return night.stations.indexOf(b) - night.stations.indexOf(a) === 1
}

/** The rules that look along the row at one moment. */
function rowBreaches(checked: Checked, stops: readonly Showing[], at: Date): string[] {
  const now = stops.filter(({ startsAt, endsAt }) => startsAt <= at && at < endsAt)
  const time = at.toISOString()
  const telescopes = checked.night.stations.filter(({ telescope }) => telescope !== null).length
  const count = (key: string) => now.filter(({ targetKey }) => targetKey === key).length
  const easy = now.filter(({ chance }) => chance >= 0.95).length
  const different = new Set(now.map(({ targetKey }) => targetKey)).size
  return [
    ...now
      .filter(({ object }) => count(object.key) > object.atOnce)
      .map(({ targetKey }) => `${targetKey} too often at ${time}`),
    ...(different < Math.ceil(0.75 * now.length) ? [`the row shows the same at ${time}`] : []),
    ...(easy < Math.ceil(telescopes / 4) ? [`nothing easy at ${time}`] : []),
    ...(isMoonClear(checked, at) && count('moon') === 0 ? [`no Moon at ${time}`] : []),
    ...(now.length < telescopes ? [`a telescope stands idle at ${time}`] : []),
  ]
}

function isMoonClear({ night, objects }: Checked, at: Date): boolean {
  const moon = objects.find(({ body }) => body === 'moon')
  if (moon === undefined) return false
  const { altitudeDeg, azimuthDeg } = seenPlace(moon, at, night)
  return altitudeDeg > Math.max(10, treesDeg(night, azimuthDeg) + 2) + 1 && altitudeDeg < 79
}

/** The three objects with the highest chance x view x appeal at any telescope where they are well placed, at one moment. */
export function bestThreeAt({ night, objects }: Checked, at: Date): readonly string[] {
  const ranked = objects.flatMap((object) => {
    if (object.body === 'sun') return []
    const { altitudeDeg, azimuthDeg } = seenPlace(object, at, night)
    if (altitudeDeg < Math.max(10, treesDeg(night, azimuthDeg) + 2)) return []
    const merits = night.stations.flatMap(({ telescope }) => {
      if (telescope === null || altitudeDeg > telescope.ceilingDeg) return []
      const { chance, view } = bestSeen(object, at, night, telescope)
      return [chance * view * object.appeal]
    })
    return [{ key: object.key, merit: Math.max(0, ...merits) }]
  })
  return ranked
    .sort((a, b) => b.merit - a.merit)
    .slice(0, 3)
    .map(({ key }) => key)
}
