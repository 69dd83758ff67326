import { nightHours, wallClock } from './hours.ts'
import { isInForce } from './limits.ts'
import type { Night } from './night.ts'
import type { Stop } from './tour.ts'
import type { Wish, WishMatter } from './wish.ts'

/** What a host may do with one stop of the programme. */
export const STOP_ACTS = ['keep', 'not-here', 'longer', 'shorter', 'swap'] as const
export type StopAct = (typeof STOP_ACTS)[number]

/** What an act on a stop wishes, and what it puts out of force: earlier wishes for the same thing there, then. */
interface StopWishes {
  readonly wishes: readonly WishMatter[]
  readonly replaced: readonly Wish[]
}

const QUARTER_MS = 900_000

/** The wishes that an act on a stop stands for; null when it cannot be done: a stop of a quarter made shorter, one to the closing made longer. */
export function stopWishes(
  night: Night,
  wishes: readonly Wish[],
  act: StopAct,
  stop: Stop,
  other: Stop | null,
): StopWishes | null {
  if (act === 'not-here') return { wishes: [barOf(stop)], replaced: ofStop(night, wishes, stop) }
  if (act === 'keep') return { wishes: [pinOf(night, stop)], replaced: ofStop(night, wishes, stop) }
  if (act === 'swap') return other && other !== stop ? swapped(night, wishes, stop, other) : null
  const endsAt = new Date(stop.endsAt.getTime() + (act === 'longer' ? QUARTER_MS : -QUARTER_MS))
  if (endsAt > nightHours(night).closesAt || endsAt <= stop.startsAt) return null
  const pin = pinOf(night, { ...stop, endsAt })
  // Without the bar the search could let a shortened stop go on.
  const bar = { ...pin, kind: 'bar' as const, startsAt: wall(night, endsAt), endsAt: wall(night, stop.endsAt) }
  const replaced = ofStop(night, wishes, act === 'longer' ? { ...stop, endsAt } : stop)
  return { wishes: act === 'longer' ? [pin] : [pin, bar], replaced }
}

/** Each of two stops takes the place and the time of the other. */
function swapped(night: Night, wishes: readonly Wish[], a: Stop, b: Stop): StopWishes {
  const inPlaceOf = (what: Stop, where: Stop) => pinOf(night, { ...where, targetKey: what.targetKey, aim: what.aim })
  return {
    wishes: [inPlaceOf(b, a), inPlaceOf(a, b)],
    replaced: [...new Set([...ofStop(night, wishes, a), ...ofStop(night, wishes, b)])],
  }
}

const wall = (night: Night, at: Date): string => wallClock(at, night.site.zone)

const pinOf = (night: Night, { stationId, targetKey, aim, startsAt, endsAt }: Stop): WishMatter => ({
  kind: 'pin',
  stationId,
  targetKey,
  aim,
  startsAt: wall(night, startsAt),
  endsAt: wall(night, endsAt),
  things: [],
})

const barOf = ({ stationId, targetKey }: Stop): WishMatter => ({
  kind: 'bar',
  stationId,
  targetKey,
  aim: null,
  startsAt: null,
  endsAt: null,
  things: [],
})

/** Wishes with times for the thing of a stop at its station, in force at some time of it: a new one takes their place. */
const ofStop = (
  night: Night,
  wishes: readonly Wish[],
  { stationId, targetKey, startsAt, endsAt }: Stop,
): readonly Wish[] =>
  wishes.filter(
    (wish) =>
      wish.startsAt !== null &&
      wish.stationId === stationId &&
      wish.targetKey === targetKey &&
      isInForce(wish, night, startsAt, endsAt),
  )
