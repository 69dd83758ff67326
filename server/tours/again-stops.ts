import type { UnderWay } from './again.ts'
import type { TourInput } from './build.ts'
import { type Again, NOTHING, slotAt, stationAt } from './course.ts'
import { actsUntil } from './fold.ts'
import { cellAt } from './grid.ts'
import type { Mark } from './mark.ts'
import type { Stop } from './tour.ts'

const MINUTE_MS = 60_000

type Thing = Pick<Stop, 'targetKey' | 'aim'>
const isSame = (a: Thing, b: Thing): boolean => a.targetKey === b.targetKey && a.aim === b.aim

/**
 * The stops of a night under way: what has begun stays as it was and ends where something else began; what replaces a
 * clouded thing, or fills a telescope that stands idle, begins at once; the rest is as planned anew.
 */
export function againStops(planned: readonly Stop[], again: Again): readonly Stop[] {
  const ids = [...new Set([...again.stops, ...planned].map(({ stationId }) => stationId))]
  const at = new Date(Math.ceil(again.at.getTime() / MINUTE_MS) * MINUTE_MS)
  const acts = actsUntil(again.marks, again.at)
  return ids.flatMap((id) => stationStops(planned, { stops: again.stops, acts, at }, id))
}

interface SoFar {
  readonly stops: readonly Stop[]
  readonly acts: readonly Mark[]
  readonly at: Date
}

function stationStops(planned: readonly Stop[], { stops, acts, at }: SoFar, stationId: string): readonly Stop[] {
  const { showing } = stationAt(stops, acts, stationId, at)
  const begun = stops.filter((stop) => stop.stationId === stationId && stop.startsAt < at)
  const ahead = planned.filter((stop) => stop.stationId === stationId && stop.endsAt > at)
  const first = ahead.find((stop) => stop.startsAt <= at)
  const rest = ahead.filter((stop) => stop !== first)
  const goesOn = first !== undefined && showing !== null && isSame(first, showing)
  const running = begun.find((stop) => stop.endsAt > at && showing !== null && isSame(stop, showing))
  const past = begun.filter((stop) => stop !== running).flatMap((stop) => cut(stop, showing?.sinceAt ?? at, at))
  if (running) past.push(goesOn ? grown(running, first) : { ...running, endsAt: at })
  if (!first || (running && goesOn)) return [...past, ...rest]
  return [...past, { ...first, startsAt: goesOn ? (showing?.sinceAt ?? at) : at }, ...rest]
}

/** A stop that something else has followed. */
function cut(stop: Stop, sinceAt: Date, at: Date): Stop[] {
  const endsAt = new Date(Math.min(stop.endsAt.getTime(), sinceAt.getTime(), at.getTime()))
  if (endsAt.getTime() === stop.endsAt.getTime()) return [stop]
  return stop.startsAt < endsAt ? [{ ...stop, endsAt }] : []
}

/** A stop that goes on: the same one, with the looks of the line as it is now, when it ends as before. */
const grown = (running: Stop, first: Stop): Stop =>
  running.endsAt.getTime() === first.endsAt.getTime()
    ? { ...running, looks: first.looks }
    : { ...first, startsAt: running.startsAt }

/** The same stop, its first reason that it stands where clouds, or a telescope that is gone, have taken another. */
export function withInstead(
  { objects }: Pick<TourInput, 'objects'>,
  { world, course, now }: UnderWay,
  stop: Stop,
): Stop {
  const s = world.stations.findIndex(({ id }) => id === stop.stationId)
  const slot = Math.max(now, slotAt(world, stop.startsAt))
  const before = world.candidates[course[s * world.slots + slot] ?? NOTHING]
  if (before === undefined || isSame(before, stop)) return stop
  const isLeft = (world.worth[cellAt(world, s, world.candidates.indexOf(before), slot)] ?? 0) > 0
  if (isLeft) return stop
  const name = objects.find(({ key }) => key === before.targetKey)?.name ?? before.targetKey
  return { ...stop, reasons: [{ code: 'tour.instead-of', values: { name } }, ...stop.reasons] }
}
