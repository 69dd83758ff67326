import { halfHourStarts, instantOf, nightHours } from './hours.ts'
import type { Night } from './night.ts'
import { type Agenda, addTo, agenda, soonest, takeFrom } from './simulation-heap.ts'
import { peopleAt } from './visitors.ts'

/** One person of a simulated evening; seconds count from the opening. */
export interface Visitor {
  readonly isChild: boolean
  readonly arrivesSec: number
  readonly leavesSec: number
}

/** People on the field from one second to another. */
export interface Present {
  readonly fromSec: number
  readonly untilSec: number
  readonly adults: number
  readonly children: number
}

/** Families stay 60 to 90 minutes where the usual stay is 75: a fifth less to a fifth more (common practice, no source). */
const STAY_SPREAD = 0.2
/** From one half hour's number of people to the next it takes ten minutes, half of them before the half hour (our choice). */
const CHANGE_SEC = 600
const STEP_SEC = 60

/** The table of visitors in seconds from the opening, one row a half hour; the usual number where a night has no table. */
export function presentOf(night: Night): readonly Present[] {
  const { opensAt, closesAt } = nightHours(night)
  const starts = halfHourStarts(night).map((start) => instantOf(night, start))
  return starts.map((at, i) => {
    const { adults, children } = peopleAt(night, at)
    const until = starts[i + 1] ?? closesAt
    return { fromSec: secondsFrom(opensAt, at), untilSec: secondsFrom(opensAt, until), adults, children }
  })
}

export const secondsFrom = (opensAt: Date, at: Date): number => (at.getTime() - opensAt.getTime()) / 1000

/**
 * People who come and go so that the table comes out. Where it falls faster than people's stays end, those who have the
 * least of their stay left go home early.
 */
export function visitorsOf(present: readonly Present[], stayMin: number, random: () => number): readonly Visitor[] {
  const adults = comeAndGo(present, stayMin, random, false)
  const children = comeAndGo(present, stayMin, random, true)
  return [...adults, ...children].sort((a, b) => a.arrivesSec - b.arrivesSec)
}

interface Guest {
  readonly sec: number
  readonly visitor: { readonly isChild: boolean; readonly arrivesSec: number; leavesSec: number }
}

function comeAndGo(present: readonly Present[], stayMin: number, random: () => number, isChild: boolean): Visitor[] {
  const endSec = present.at(-1)?.untilSec ?? 0
  const there = agenda<Guest>()
  const all: Guest['visitor'][] = []
  for (let sec = 0; sec < endSec; sec += STEP_SEC) {
    const within = () => Math.min(endSec, sec + random() * STEP_SEC)
    while ((soonest(there)?.sec ?? Number.POSITIVE_INFINITY) <= sec) takeFrom(there)
    const wanted = Math.round(wantedAt(present, sec + STEP_SEC / 2, isChild))
    sendHome(there, wanted, within)
    while (there.items.length < wanted) {
      const arrivesSec = sec === 0 ? 0 : within()
      const staySec = stayMin * 60 * (1 + STAY_SPREAD * (2 * random() - 1))
      const visitor = { isChild, arrivesSec, leavesSec: Math.min(endSec, arrivesSec + staySec) }
      all.push(visitor)
      addTo(there, { sec: arrivesSec + staySec, visitor })
    }
  }
  return all
}

function sendHome(there: Agenda<Guest>, wanted: number, within: () => number): void {
  while (there.items.length > wanted) {
    const guest = takeFrom(there)
    if (guest) guest.visitor.leavesSec = Math.max(guest.visitor.arrivesSec, Math.min(guest.visitor.leavesSec, within()))
  }
}

/** The table at a second, sloping from each half hour's number to the next. Half of the first are there at the opening. */
function wantedAt(present: readonly Present[], sec: number, isChild: boolean): number {
  const countOf = (row: Present | undefined): number => (row === undefined ? 0 : isChild ? row.children : row.adults)
  const i = present.findLastIndex(({ fromSec }) => fromSec <= sec)
  const row = present[i]
  if (row === undefined) return 0
  const slope = (before: Present | undefined, after: Present, share: number) =>
    countOf(before) + (countOf(after) - countOf(before)) * share
  const since = sec - row.fromSec
  if (since < CHANGE_SEC / 2) return slope(present[i - 1], row, 0.5 + since / CHANGE_SEC)
  const next = present[i + 1]
  const left = row.untilSec - sec
  return next && left < CHANGE_SEC / 2 ? slope(row, next, 0.5 - left / CHANGE_SEC) : countOf(row)
}
