import { type Again, type Course, courseOf, NOTHING, SOMETHING_ELSE, slotAt } from './course.ts'
import type { EveningSky } from './evening.ts'
import { cellAt, type Grid } from './grid.ts'
import { limited } from './limits.ts'
import { looksPerHour } from './line.ts'
import { type News, newsOf } from './news.ts'
import type { Night } from './night.ts'
import { stepAt, targetAtStep } from './sky-at.ts'
import { skyPartOf } from './sky-part.ts'

interface AgainInput {
  readonly night: Night
  readonly sky: EveningSky
}

/** A night under way as the search sees it. */
export interface UnderWay {
  /** What can still be shown, and what was. */
  readonly world: Grid
  readonly course: Course
  /** The quarter that is not over yet. */
  readonly now: number
}

/** Nothing of the next half hour changes but for the sky: operators hold it on paper and people stand in line for it. */
const HELD_MIN = 30
/** What was shown counts as shown, however little a newcomer saw of it. */
const SHOWN_WORTH = 1e-3

/** The evening as it is now: the past as it was, nothing from stations that have left, nothing behind the clouds, and the line as it was measured. */
export function underWay(open: Grid, input: AgainInput, again: Again): UnderWay {
  const course = courseOf(open, again)
  return { world: worldGrid(open, input, again, course), course, now: slotAt(open, again.at) }
}

function worldGrid(open: Grid, input: AgainInput, again: Again, course: Course): Grid {
  const news = newsOf(input.night, again.marks, again.at)
  const now = slotAt(open, again.at)
  const isOff = new Uint8Array(open.worth.length)
  const [worth, capacity] = [open.worth.slice(), measured(open, news, now)]
  const isShut = shutCells(open, input, news, again.at)
  for (const [s, { id }] of open.stations.entries()) {
    const isOut = news.out.includes(id)
    for (let t = 0; t < open.slots; t++) {
      const shown = course[s * open.slots + t] ?? NOTHING
      const isFact = t < now || (t === now && shown >= 0 && !isOut && !isShut(shown, t))
      if (isFact && shown >= 0) asShown({ worth, capacity }, cellAt(open, s, shown, t), hoursOf(open, t), input.night)
      for (const c of open.candidates.keys()) {
        const isGone = t < now ? c !== shown : isOut || isShut(c, t)
        if (isGone) isOff[cellAt(open, s, c, t)] = 1
      }
    }
  }
  const people = open.people.map((count, t) => (t < now ? count : count * news.crowd))
  return limited({ ...open, worth, capacity, people }, { isOff, asked: open.asked })
}

/** The same once the host's wishes have taken what they will: what is shown now and for half an hour stays, where the sky and the wishes leave it. */
export function heldGrid(wished: Grid, { at }: Again, { course, now }: UnderWay): Grid {
  const heldUntilAt = new Date(at.getTime() + HELD_MIN * 60_000)
  const isOff = new Uint8Array(wished.worth.length)
  const kept = wished.kept.slice()
  for (const s of wished.stations.keys()) {
    for (let t = 0; t < wished.slots; t++) {
      const shown = course[s * wished.slots + t] ?? NOTHING
      const isThere = shown >= 0 && (wished.worth[cellAt(wished, s, shown, t)] ?? 0) > 0
      const isHeld = now <= t && (wished.borders[t] ?? at) < heldUntilAt
      if (isThere) kept[s * wished.slots + t] = shown
      if (!isHeld || !(isThere || shown === SOMETHING_ELSE)) continue
      for (const c of wished.candidates.keys()) if (c !== shown) isOff[cellAt(wished, s, c, t)] = 1
    }
  }
  return { ...limited(wished, { isOff, asked: wished.asked }), kept, opening: now }
}

function asShown(
  { worth, capacity }: Pick<Grid, 'worth' | 'capacity'>,
  cell: number,
  hours: number,
  { settings }: Night,
): void {
  worth[cell] = Math.max(worth[cell] ?? 0, SHOWN_WORTH)
  if ((capacity[cell] ?? 0) <= 0) capacity[cell] = looksPerHour(settings.cycleSec) * hours
}

/** Looks that the line allows, where people were timed as measured from this quarter on. */
function measured(open: Grid, { cycleSec }: News, now: number): Float64Array {
  const capacity = open.capacity.slice()
  for (const [s, { id }] of open.stations.entries()) {
    const seconds = cycleSec.get(id)
    if (seconds === undefined) continue
    for (const c of open.candidates.keys()) {
      for (let t = now; t < open.slots; t++) {
        const cell = cellAt(open, s, c, t)
        if ((capacity[cell] ?? 0) > 0) capacity[cell] = looksPerHour(seconds) * hoursOf(open, t)
      }
    }
  }
  return capacity
}

const hoursOf = ({ borders }: Grid, slot: number): number =>
  ((borders[slot + 1]?.getTime() ?? 0) - (borders[slot]?.getTime() ?? 0)) / 3_600_000

/** Tells of a candidate and a quarter not yet over whether it stands behind clouds at any step of what is left of it. */
function shutCells(open: Grid, { sky }: AgainInput, { shut, shutUntilAt }: News, at: Date) {
  const isShutAt = (targetIndex: number, fromAt: Date, toAt: Date): boolean => {
    const [from, to] = [Math.floor(stepAt(sky, fromAt)), Math.ceil(stepAt(sky, toAt))]
    for (let step = from; step <= to; step++) {
      if (shut.includes(skyPartOf(targetAtStep(sky, targetIndex, step)))) return true
    }
    return false
  }
  return (candidate: number, slot: number): boolean => {
    const [fromAt, toAt] = [open.borders[slot] ?? at, open.borders[slot + 1] ?? at]
    const targetIndex = open.candidates[candidate]?.targetIndex
    if (shut.length === 0 || targetIndex === undefined || (shutUntilAt !== null && fromAt >= shutUntilAt)) return false
    return isShutAt(targetIndex, fromAt < at ? at : fromAt, toAt)
  }
}
