import { looksPerHour } from './line.ts'
import type { Mark } from './mark.ts'
import { payloadOf } from './mark-payload.ts'
import type { Night } from './night.ts'
import { sumOf } from './report-shares.ts'
import { minutesOf, type Showing } from './report-showings.ts'
import { turnSecOf } from './simulation-rows.ts'
import { childShareOf, peopleAt } from './visitors.ts'

/**
 * How the looks of a showing were reckoned: from people timed at that eyepiece, from the looks that the programme gave
 * the stop, or, for what was not in the programme, from the night's usual time a look.
 */
type LooksBy = 'timed' | 'planned' | 'usual'

/** A showing with the looks through its telescope, one for each turn that was timed; none where a station is no telescope. */
export interface CountedShowing extends Showing {
  /** A whole number, so that every sum of them is exact. */
  readonly looks: number
  readonly by: LooksBy | null
  /** Seconds a look, where people were timed. */
  readonly timedSec: number | null
}

interface Timing {
  readonly stationId: string | null
  readonly at: Date
  readonly people: number
  readonly seconds: number
}

/** Each showing with its looks. */
export function withLooks(
  night: Night,
  showings: readonly Showing[],
  acts: readonly Mark[],
): readonly CountedShowing[] {
  const timings = acts.flatMap((mark): Timing[] => {
    const timed = payloadOf('timed', mark)
    return timed === null ? [] : [{ ...timed, stationId: mark.stationId, at: mark.happenedAt }]
  })
  return showings.map((showing) => counted(night, showing, timings))
}

function counted(night: Night, showing: Showing, timings: readonly Timing[]): CountedShowing {
  const station = night.stations.find(({ id }) => id === showing.stationId)
  if (!station?.telescope) return { ...showing, looks: 0, by: null, timedSec: null }
  const minutes = Math.max(0, minutesOf(showing) - showing.troubleMin)
  const looksIn = (turnSec: number) => Math.round((looksPerHour(turnSec) * minutes) / 60)
  const timedSec = timedAt(showing, timings)
  if (timedSec !== null) return { ...showing, looks: looksIn(timedSec), by: 'timed', timedSec }
  const { stop } = showing
  if (stop !== null) {
    const share = minutes / minutesOf({ fromAt: stop.startsAt, toAt: stop.endsAt })
    return { ...showing, looks: Math.round(stop.looks * share), by: 'planned', timedSec: null }
  }
  const middle = new Date((showing.fromAt.getTime() + showing.toAt.getTime()) / 2)
  const usualSec = turnSecOf(night, station.telescope, [], childShareOf(peopleAt(night, middle)))
  return { ...showing, looks: looksIn(usualSec), by: 'usual', timedSec: null }
}

/** Seconds a look from all timings during a showing, else from the last one before it at that station; null without one. */
function timedAt({ stationId, fromAt, toAt }: Showing, timings: readonly Timing[]): number | null {
  const there = timings.filter((timing) => timing.stationId === stationId && timing.at <= toAt)
  const during = there.filter(({ at }) => at >= fromAt)
  const used = during.length > 0 ? during : there.slice(-1)
  const people = sumOf(used.map((timing) => timing.people))
  return people === 0 ? null : sumOf(used.map((timing) => timing.seconds)) / people
}
