import { radians, separationDeg } from '../../server/sky/angles.ts'
import type { HalfHour } from '../../server/tours/night.ts'
import { type Checked, type Showing, showingOf } from './checker.ts'
import { bestSeen, minutesAfter, seenPlace, seenThrough } from './checker-sky.ts'

interface Recount {
  readonly value: number
  /** Looks of each stop, in the order of the stops. */
  readonly looks: readonly number[]
}

const DRIVEN_DEG_PER_MIN = 90
const HAND_DEG_PER_MIN = 60

/** Value and looks of a programme, reckoned from its stops with this file's own writing of every factor. */
export function recount(checked: Checked, rowOf: (at: Date) => HalfHour): Recount {
  const stops = checked.stops.map((stop) => showingOf(checked, stop))
  const given: { key: string; at: Date; count: number }[] = []
  const looks = stops.map(() => 0)
  let value = 0
  for (let at = checked.opensAt; at < checked.closesAt; at = minutesAfter(at, 15)) {
    const row = rowOf(at)
    for (const [i, stop] of stops.entries()) {
      if (stop.startsAt > at || at >= stop.endsAt) continue
      const felt = given.filter(({ key }) => key === stop.targetKey)
      const stock = felt.reduce((sum, one) => sum + one.count * fading(checked, one.at, at), 0)
      const count = Math.min(capacityOf(checked, stop, row), Math.max(0, row.adults + row.children - stock))
      given.push({ key: stop.targetKey, at, count })
      looks[i] = (looks[i] ?? 0) + count
      value += count * meanWorth(checked, stop, at, row)
    }
  }
  return { value: value - movingCost(checked, stops, rowOf) - alikeCost(checked, stops), looks }
}

const fading = ({ night }: Checked, from: Date, to: Date): number =>
  Math.exp(-(to.getTime() - from.getTime()) / 60_000 / night.settings.stayMin)

function capacityOf({ night }: Checked, { telescope, setups }: Showing, row: HalfHour): number {
  const children = row.children / Math.max(1, row.adults + row.children)
  const isHand = telescope.mount === 'altaz-hand' && (setups[0]?.powerX ?? 0) >= 80
  const cycleSec = night.settings.cycleSec + 15 * children + (isHand ? 20 : 0)
  return Math.min(25, 900 / cycleSec)
}

function meanWorth(checked: Checked, stop: Showing, from: Date, row: HalfHour): number {
  const samples = [0, 5, 10, 15].map((minutes) => worthAt(checked, stop, minutesAfter(from, minutes), row))
  return samples.reduce((sum, worth) => sum + worth, 0) / samples.length
}

function worthAt(checked: Checked, stop: Showing, at: Date, row: HalfHour): number {
  const { object, telescope, setups } = stop
  const setup = setups[0]
  if (setup === undefined) throw new Error('A stop without an eyepiece')
  const { altitudeDeg } = seenPlace(object, at, checked.night)
  const { chance, view } = seenThrough(object, at, checked.night, telescope, setup)
  const isBody = object.body !== null
  const low = isBody ? 1 : Math.max(0.4, line(altitudeDeg, [12, 0.5], [20, 0.8], [30, 1]))
  const steady = stop.aim === 'close' ? Math.max(0.3, line(altitudeDeg, [12, 0.3], [20, 0.5], [40, 1])) : 1
  const high =
    telescope.mount === 'equatorial'
      ? 1
      : line(altitudeDeg, [telescope.ceilingDeg - 10, 1], [telescope.ceilingDeg, 0.5])
  return (
    chance *
    view *
    object.appeal ** 2 *
    low *
    steady *
    high *
    comfort(stop, altitudeDeg, row) *
    needs(checked, stop, at, view)
  )
}

/** Straight lines through points, level beyond the last one and straight on before the first. */
function line(x: number, ...points: readonly (readonly [number, number])[]): number {
  const next = points.findIndex(([at]) => x < at)
  const last = points.at(-1)
  if (next < 0) return last?.[1] ?? 0
  const [a, b] = next === 0 ? [points[0], points[1]] : [points[next - 1], points[next]]
  if (a === undefined || b === undefined) return 0
  if (next === 0 && a[1] > b[1]) return a[1]
  return a[1] + ((x - a[0]) * (b[1] - a[1])) / (b[0] - a[0])
}

/** The worse of the tubes that a visitor looks through. */
const comfort = ({ telescope, setups }: Showing, altitudeDeg: number, row: HalfHour): number =>
  Math.min(...setups.map(({ tubeId }) => comfortAt(telescope, tubeId, altitudeDeg, row)))

function comfortAt(telescope: Showing['telescope'], tubeId: string, altitudeDeg: number, row: HalfHour): number {
  const tube = telescope.tubes.find(({ id }) => id === tubeId)
  if (tube === undefined) throw new Error('A setup without its tube')
  const rise = (Math.sin(radians(altitudeDeg)) * tube.focalLengthMm) / 10
  const reach =
    { reflector: 0.65, refractor: -0.5, catadioptric: -0.125 }[tube.design] * rise + (tube.hasDiagonal ? 8 : 0)
  const fits = (least: number, most: number) =>
    telescope.axisLowCm + reach <= most && telescope.axisHighCm + reach >= least
  const standing = Math.max(0, row.adults - row.seated)
  const sum =
    standing * (fits(90, 175) ? 1 : 0.7) +
    row.children * (fits(70, 120) ? 1 : 0.7) +
    (row.adults - standing) * (telescope.chairReach !== 'no' && fits(75, 130) ? 1 : 0.5)
  const all = row.adults + row.children
  return all === 0 ? 1 : sum / all
}

const apertureOf = ({ tubes }: Showing['telescope']): number => Math.max(...tubes.map(({ apertureMm }) => apertureMm))

function needs({ night }: Checked, { object, telescope }: Showing, at: Date, view: number): number {
  const row = night.stations.flatMap((station) => (station.telescope === null ? [] : [station.telescope]))
  const isDriven = row.some(({ mount }) => mount !== 'altaz-hand')
  if (object.kind === 'planet') return telescope.mount === 'altaz-hand' && isDriven ? 0.5 : 1
  const bigness = Math.min(1, Math.log(apertureOf(telescope) / Math.min(...row.map(apertureOf))) / Math.log(3))
  if (['globular', 'galaxy', 'planetary', 'nebula', 'remnant', 'comet'].includes(object.kind)) return 1 + bigness
  const smaller = row.filter((other) => apertureOf(other) < apertureOf(telescope))
  if (smaller.length === 0) return 1
  const views = smaller.map((other) => bestSeen(object, at, night, other).view)
  const share = views.reduce((sum, other) => sum + other, 0) / views.length / view
  return 1 - 0.8 * bigness * Math.min(1, Math.max(0, (share - 0.5) / 0.5))
}

function movingCost(checked: Checked, stops: readonly Showing[], rowOf: (at: Date) => HalfHour): number {
  const bother = 4 + 4 / checked.night.stations.filter(({ telescope }) => telescope !== null).length
  const middleAt = new Date((checked.opensAt.getTime() + checked.closesAt.getTime()) / 2)
  return stops.reduce((cost, stop) => {
    const short = stop.endsAt.getTime() - stop.startsAt.getTime() <= 900_000 ? 2 : 0
    const before = stops.filter((other) => other.stationId === stop.stationId && other.endsAt <= stop.startsAt).at(-1)
    if (before === undefined) return cost + short
    const [a, b] = [before, stop].map(({ object }) => seenPlace(object, middleAt, checked.night))
    if (a === undefined || b === undefined) return cost
    const swing = separationDeg(a.azimuthDeg, a.altitudeDeg, b.azimuthDeg, b.altitudeDeg)
    const isHand = stop.telescope.mount === 'altaz-hand'
    const isEasy = ['moon', 'planet', 'star', 'red-star'].includes(stop.object.kind)
    const find = isHand && !isEasy ? 3 : 0
    const minutes = 1 + find + swing / (isHand ? HAND_DEG_PER_MIN : DRIVEN_DEG_PER_MIN)
    const lost = (minutes * 60) / Math.max(36, checked.night.settings.cycleSec)
    return cost + short + bother + lost * meanWorth(checked, stop, stop.startsAt, rowOf(stop.startsAt))
  }, 0)
}

const AGAIN: Readonly<Record<string, number>> = {
  star: 7, 'red-star': 7, double: 7, asterism: 5, globular: 4, galaxy: 4, planetary: 4, 'open-cluster': 2, nebula: 3, remnant: 3,
} // biome-ignore format: a table

function alikeCost({ opensAt, closesAt }: Checked, stops: readonly Showing[]): number {
  let cost = 0
  for (let at = opensAt; at < closesAt; at = minutesAfter(at, 15)) {
    const now = stops.filter(({ startsAt, endsAt }) => startsAt <= at && at < endsAt)
    for (const [i, a] of now.entries()) {
      for (const b of now.slice(i + 1)) {
        if (a.targetKey === b.targetKey) cost += 10
        else if (a.object.kind === b.object.kind) cost += 1
      }
    }
  }
  const targets = [...new Set(stops.map(({ targetKey }) => targetKey))]
  const begun = stops.filter((stop) => {
    const before = stops.filter((other) => other.stationId === stop.stationId && other.endsAt <= stop.startsAt).at(-1)
    return before?.targetKey !== stop.targetKey
  }).length
  const kinds = targets.map((key) => stops.find(({ targetKey }) => targetKey === key)?.object.kind ?? 'star')
  const again = kinds.filter((kind, i) => kinds.indexOf(kind) < i).reduce((sum, kind) => sum + (AGAIN[kind] ?? 0), 0)
  return cost + 8 * (begun - targets.length) + again
}
