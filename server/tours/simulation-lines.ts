import type { Agenda } from './simulation-heap.ts'
import type { Visitor } from './simulation-visitors.ts'

/** What one station shows from one second of the evening to another. */
export interface LineStop {
  readonly targetKey: string
  /** When the first visitor can look: the telescope has been turned there by then. */
  readonly fromSec: number
  /** When the last look has ended. */
  readonly untilSec: number
  readonly adultSec: number
  readonly childSec: number
  /** Looks that one visitor gets in one turn: two where both tubes are looked through. */
  readonly eyepieces: number
}

/** A station with its stops in the order of time. */
export interface LineStation {
  readonly stationId: string
  readonly stops: readonly LineStop[]
}

/** How people are taken to behave. */
export interface Habits {
  readonly adultPatienceSec: number
  readonly childPatienceSec: number
  /** From one station to the next. */
  readonly walkSec: number
}

/**
 * Adults give up after 20 minutes in one line and children after 12: a wait of 12 to 20 minutes is still comfortable,
 * with small children the least of it (common practice, no source). A third of a minute to the next station in the dark
 * (our choice).
 */
export const USUAL_HABITS: Habits = { adultPatienceSec: 1200, childPatienceSec: 720, walkSec: 20 }

export interface LineInput {
  readonly stations: readonly LineStation[]
  /** In the order of their arrival. */
  readonly visitors: readonly Visitor[]
  readonly habits: Habits
}

/** One visitor's turn at a station. */
interface Turn {
  readonly visitor: number
  readonly station: number
  readonly stop: number
  readonly joinedSec: number
  readonly fromSec: number
  readonly untilSec: number
}

/** How many stand in a line or look, from then on. */
export interface Length {
  readonly sec: number
  readonly station: number
  readonly people: number
}

/** An evening in the making: plain data, changed by `advanceLines` alone. */
export interface LineEvening {
  readonly input: LineInput
  readonly agenda: Agenda<Act>
  readonly people: readonly Person[]
  /** By station and stop, and all of them in that order. */
  readonly lines: readonly (readonly Line[])[]
  readonly allLines: readonly Line[]
  /** By station: when its present look ends. */
  readonly busyUntilSec: Float64Array
  readonly turns: Turn[]
  readonly lengths: Length[]
  gaveUp: number
}

/** A visitor so far. */
interface Person {
  readonly seen: Set<string>
  /** Lines given up, which are not joined again. */
  readonly left: Set<Line>
  place: number
  line: Line | null
  joinedSec: number
  /** Number of joinings, so that a patience that ends can tell whether its line is still the same. */
  joinings: number
}

/** Who waits for one stop. */
export interface Line {
  readonly station: number
  readonly stop: LineStop
  readonly number: number
  readonly waiting: number[]
  /** Seconds that those who wait will look, all together. */
  waitingSec: number
  /** From when nobody who joins would still look before the stop ends. */
  closedSec: number
}

/** What falls due. */
type Act =
  | { readonly sec: number; readonly does: 'choose'; readonly visitor: number }
  | { readonly sec: number; readonly does: 'join'; readonly visitor: number; readonly line: Line }
  | { readonly sec: number; readonly does: 'give-up'; readonly visitor: number; readonly joining: number }
  | { readonly sec: number; readonly does: 'serve'; readonly station: number; readonly leaver: number | null }

/** The line for the next thing forms five minutes before it is shown (our choice). */
const FORMS_BEFORE_SEC = 300

/** True while a line that the visitor has not given up may still show something new. */
export const hasMore = ({ allLines, people }: LineEvening, visitor: number, sec: number): boolean =>
  allLines.some((line) => {
    const person = people[visitor]
    return line.stop.untilSec > sec && !person?.seen.has(line.stop.targetKey) && !person?.left.has(line)
  })

/** True when a visitor who joins then has not seen the thing, and would have looked before the stop ends and before going home. */
export function isOpenFor(evening: LineEvening, line: Line, visitor: number, sec: number): boolean {
  const person = personOf(evening, visitor)
  const { stop } = line
  if (sec < stop.fromSec - FORMS_BEFORE_SEC || sec >= stop.untilSec) return false
  if (person.seen.has(stop.targetKey) || person.left.has(line)) return false
  const endsSec = beginsSec(evening, line, sec) + turnSec(evening, line, visitor)
  return endsSec <= Math.min(stop.untilSec, evening.input.visitors[visitor]?.leavesSec ?? 0)
}

/** When one who joins a line at a second would begin to look, if nobody ahead gives up. */
export function beginsSec(evening: LineEvening, line: Line, sec: number): number {
  return Math.max(sec, evening.busyUntilSec[line.station] ?? 0, line.stop.fromSec) + line.waitingSec
}

/** Seconds of one visitor's turn at that stop. */
export const turnSec = ({ input }: LineEvening, { stop }: Line, visitor: number): number =>
  input.visitors[visitor]?.isChild ? stop.childSec : stop.adultSec

/** Puts a visitor at the end of a line. */
export function stand(evening: LineEvening, line: Line, visitor: number): void {
  line.waiting.push(visitor)
  line.waitingSec += turnSec(evening, line, visitor)
}

/** Takes a visitor out of a line, wherever in it. */
export function stepOut(evening: LineEvening, line: Line, visitor: number): void {
  line.waiting.splice(line.waiting.indexOf(visitor), 1)
  line.waitingSec = line.waiting.length === 0 ? 0 : line.waitingSec - turnSec(evening, line, visitor)
}

/** Keeps how long the line at a station is now. */
export function noteLength({ lines, lengths, busyUntilSec }: LineEvening, station: number, sec: number): void {
  const waiting = (lines[station] ?? []).reduce((sum, line) => sum + line.waiting.length, 0)
  lengths.push({ sec, station, people: waiting + ((busyUntilSec[station] ?? 0) > sec ? 1 : 0) })
}

/** Who that visitor is; the number must be of one. */
export function personOf({ people }: LineEvening, visitor: number): Person {
  const person = people[visitor]
  if (person === undefined) throw new Error(`There is no visitor ${visitor}`)
  return person
}
