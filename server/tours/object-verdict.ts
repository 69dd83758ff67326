import type { ClearSpan } from './clear-spans.ts'
import { cellAt, type Grid } from './grid.ts'
import { LEAST_CHANCE } from './grid-cells.ts'
import { nightHours, remarkClock } from './hours.ts'
import type { Night } from './night.ts'
import type { StationTonight, TonightInput } from './object-tonight.ts'
import type { WhyNot } from './offered.ts'
import { stepAt, targetAtStep } from './sky-at.ts'
import type { Cause, Remark, Stop } from './tour.ts'

/** What was found out about the object before the verdict. */
export interface Findings {
  readonly targetIndex: number
  /** What stands in the way of a bare eye. */
  readonly byEye: WhyNot
  readonly clear: readonly ClearSpan[]
  readonly stations: readonly StationTonight[]
  /** The night's quarter hours, with the object and everything on the programme; asked for only where they are needed. */
  readonly grid: () => Grid
}

/** Why the object is on the programme (its stops and what is said of them), or the first thing that keeps it off, in codes. */
export function verdictOf(input: TonightInput, findings: Findings): readonly Remark[] {
  const { tour, object } = input
  if (tour === null) return [{ code: 'why.no-tour' }]
  const stops = tour.stops.filter(({ targetKey }) => targetKey === object.key)
  if (stops.length > 0) return stops.flatMap((stop) => onTour(input, stop))
  return notPlaced(input, findings) ?? notSeen(findings) ?? spare(input) ?? outdone(input, findings, tour.stops)
}

const stationName = ({ stations }: Night, stationId: string): string =>
  stations.find(({ id }) => id === stationId)?.name ?? stationId

function onTour({ night }: TonightInput, stop: Stop): Remark[] {
  const time = (at: Date) => remarkClock(at, night.site.zone)
  const values = { station: stationName(night, stop.stationId), from: time(stop.startsAt), to: time(stop.endsAt) }
  return [{ code: 'why.on-tour', values }, ...stop.reasons]
}

function notPlaced(input: TonightInput, { targetIndex, byEye, clear, stations }: Findings): Remark[] | null {
  if (clear.length === 0) return [barredBy(mostOften(causesOf(input, targetIndex, byEye)))]
  if (input.night.stations.every(({ telescope }) => telescope === null)) return [{ code: 'why.no-telescope' }]
  if (stations.length === 0) return [{ code: 'why.unknown' }]
  const open = stations.filter(({ quarters }) => quarters.some(({ cause }) => cause === null))
  if (open.length > 0) return null
  return [barredBy(mostOften(stations.flatMap(({ quarters }) => quarters.flatMap(({ cause }) => cause ?? []))))]
}

/** What is in the way of a bare eye at every fifth minute of the public hours. */
function causesOf({ night, sky }: TonightInput, targetIndex: number, byEye: WhyNot): Cause[] {
  const { opensAt, closesAt } = nightHours(night)
  const causes: Cause[] = []
  for (let step = stepAt(sky, opensAt); step <= stepAt(sky, closesAt); step++) {
    const cause = targetAtStep(sky, targetIndex, step).altitudeDeg < 0 ? { code: 'set' as const } : byEye(step)
    if (cause !== null) causes.push(cause)
  }
  return causes
}

function mostOften(causes: readonly Cause[]): Cause {
  const counts = new Map<string, { cause: Cause; count: number }>()
  for (const cause of causes) {
    const name = `${cause.code} ${cause.name ?? ''}`
    counts.set(name, { cause, count: (counts.get(name)?.count ?? 0) + 1 })
  }
  return [...counts.values()].toSorted((a, b) => b.count - a.count)[0]?.cause ?? { code: 'low' }
}

const barredBy = ({ code, name }: Cause): Remark =>
  name === undefined || name === '' ? { code: `why.${code}` } : { code: `why.${code}-named`, values: { name } }

/** The best that any telescope shows of it while it is well placed is seen by fewer than one newcomer in two. */
function notSeen({ stations }: Findings): Remark[] | null {
  const placed = stations.filter(({ quarters }) => quarters.some(({ cause }) => cause === null))
  const best = placed.toSorted((a, b) => b.sighting.chance - a.sighting.chance)[0]
  if (best === undefined || best.sighting.chance >= LEAST_CHANCE) return null
  return [{ code: 'why.faint' }, ...hindrances(best)]
}

/** The two heaviest reasons that speak against it. */
const hindrances = ({ sighting }: StationTonight): readonly Remark[] =>
  sighting.reasons.filter(({ code }) => code !== 'sight.bright').slice(0, 2)

function spare({ night, tour, object }: TonightInput): Remark[] | null {
  const found = tour?.spares.find(({ targetKey }) => targetKey === object.key)
  if (found === undefined) return null
  const time = (at: Date) => remarkClock(at, night.site.zone)
  const values = { station: stationName(night, found.stationId), from: time(found.fromAt), to: time(found.untilAt) }
  return [{ code: 'why.spare', values }]
}

/** What the programme shows at the telescope and quarter hour in which the object is worth most, and in what it is better. */
function outdone(input: TonightInput, findings: Findings, stops: readonly Stop[]): Remark[] {
  const grid = findings.grid()
  const best = bestCell(grid, input.object.key)
  if (best === null) return seldom(findings)
  const { station, slot, candidate } = best
  const at = grid.borders[slot] ?? nightHours(input.night).opensAt
  const stationId = grid.stations[station]?.id ?? ''
  const shown = stops.find((stop) => stop.stationId === stationId && stop.startsAt <= at && at < stop.endsAt)
  const other = grid.candidates.findIndex(({ targetKey, aim }) => targetKey === shown?.targetKey && aim === shown.aim)
  if (shown === undefined || other < 0) return [{ code: 'why.left-over' }]
  const name = input.objects.find(({ key }) => key === shown.targetKey)?.name ?? shown.targetKey
  const values = { station: stationName(input.night, stationId), time: remarkClock(at, input.night.site.zone), name }
  return [{ code: 'why.outdone', values }, { code: `why.more-${betterIn(grid, station, slot, candidate, other)}` }]
}

const QUARTER_MS = 900_000

/** Never for a whole quarter hour: too short a time in the open, or too few would see it for most of it. */
function seldom({ clear, stations }: Findings): Remark[] {
  const longestMs = Math.max(0, ...clear.map(({ fromAt, untilAt }) => untilAt.getTime() - fromAt.getTime()))
  const best = stations.toSorted((a, b) => b.sighting.chance - a.sighting.chance)[0]
  if (longestMs < QUARTER_MS || best === undefined) return [{ code: 'why.brief' }]
  return [{ code: 'why.seldom' }, ...hindrances(best)]
}

interface BestCell {
  readonly station: number
  readonly slot: number
  readonly candidate: number
}

function bestCell(grid: Grid, key: string): BestCell | null {
  let [best, worth]: [BestCell | null, number] = [null, 0]
  for (const station of grid.stations.keys()) {
    for (const [candidate, { targetKey }] of grid.candidates.entries()) {
      for (let slot = 0; targetKey === key && slot < grid.slots; slot++) {
        const here = grid.worth[cellAt(grid, station, candidate, slot)] ?? 0
        if (here > worth) [best, worth] = [{ station, slot, candidate }, here]
      }
    }
  }
  return best
}

/** The factor by which the other one is furthest ahead: delight, chance or view; none when it is ahead in nothing (staying costs nothing, moving does). */
function betterIn(grid: Grid, station: number, slot: number, candidate: number, other: number) {
  const at = (which: number) => cellAt(grid, station, which, slot)
  const delight = (which: number) => grid.candidates[which]?.appeal ?? 0
  const leads = [
    { in: 'delight', by: ratio(delight(other) ** 2, delight(candidate) ** 2) },
    { in: 'chance', by: ratio(grid.meanChance[at(other)], grid.meanChance[at(candidate)]) },
    { in: 'view', by: ratio(grid.meanView[at(other)], grid.meanView[at(candidate)]) },
  ]
  const first = leads.toSorted((a, b) => b.by - a.by)[0]
  return first !== undefined && first.by > 1.02 ? first.in : 'calm'
}

const ratio = (a = 0, b = 0): number => (b > 0 ? a / b : a > 0 ? Number.POSITIVE_INFINITY : 1)
