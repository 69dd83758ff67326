import type { StationNow } from './field.ts'
import type { Mark } from './mark.ts'
import { payloadOf } from './mark-payload.ts'
import type { Stop } from './tour.ts'

type Showing = NonNullable<StationNow['showing']>

/** A skip with the one stop that falls by it, or null when only what is on now was meant. */
interface Skip {
  readonly targetKey: string
  readonly why: string
  readonly stop: Stop | null
}

interface Course {
  readonly showing: Showing | null
  readonly shown: readonly { readonly targetKey: string; readonly fromAt: Date; readonly toAt: Date }[]
  readonly skipped: readonly Skip[]
  readonly trouble: string | null
}

/** What may change the course of a station: an act, or a stop of the plan that begins or ends. */
type Turn = { readonly atMs: number; readonly rank: number } & (
  | { readonly kind: 'act'; readonly mark: Mark }
  | { readonly kind: 'begin' | 'end'; readonly stop: Stop }
)

/** One station at an instant, from its own stops and its own standing acts (oldest first, none after that instant). */
export function stationNow(stationId: string, stops: readonly Stop[], acts: readonly Mark[], at: Date): StationNow {
  const planned = [...stops].sort((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
  const turns = [...planned.flatMap(stopTurns), ...acts.map(actTurn)]
  turns.sort((a, b) => a.atMs - b.atMs || a.rank - b.rank)
  const past = turns.filter(({ atMs }) => atMs <= at.getTime())
  const start: Course = { showing: null, shown: [], skipped: [], trouble: null }
  const course = past.reduce((sum, turn) => turned(sum, turn, planned), start)
  const { showing } = course
  const { untilAt, next } = aheadOf(course, turns.slice(past.length), planned)
  const open = showing === null ? [] : [{ targetKey: showing.targetKey, fromAt: showing.sinceAt, toAt: null }]
  return {
    stationId,
    showing,
    untilAt,
    next: next === null ? null : { targetKey: next.targetKey, aim: next.aim, atAt: next.sinceAt },
    shown: [...course.shown, ...open],
    skipped: course.skipped.map(({ targetKey, why }) => ({ targetKey, why })),
    trouble: course.trouble,
    lastMarkKey: newestKey(acts),
  }
}

/** What follows when nobody acts: when the thing on now ends, and the next one that begins. */
function aheadOf(
  now: Course,
  turns: readonly Turn[],
  planned: readonly Stop[],
): { readonly untilAt: Date | null; readonly next: Showing | null } {
  let course = now
  let untilAt: Date | null = null
  for (const turn of turns) {
    const after = turned(course, turn, planned)
    const isOther = after.showing?.sinceAt.getTime() !== course.showing?.sinceAt.getTime()
    if (isOther && now.showing !== null) untilAt ??= new Date(turn.atMs)
    if (isOther && after.showing !== null) return { untilAt, next: after.showing }
    course = after
  }
  return { untilAt, next: null }
}

const newestKey = (acts: readonly Mark[]): string | null =>
  acts.reduce<Mark | null>((newest, mark) => (newest === null || mark.seq > newest.seq ? mark : newest), null)?.key ??
  null

const isSame = (showing: Showing | null, stop: Stop): boolean =>
  showing !== null && showing.targetKey === stop.targetKey && showing.aim === stop.aim

const isSkipped = (course: Course, stop: Stop): boolean => course.skipped.some((skip) => skip.stop === stop)

/** Ends come before starts at the same moment, and both before acts. */
const stopTurns = (stop: Stop): Turn[] => [
  { atMs: stop.endsAt.getTime(), rank: -2, kind: 'end', stop },
  { atMs: stop.startsAt.getTime(), rank: -1, kind: 'begin', stop },
]

const actTurn = (mark: Mark): Turn => ({ atMs: mark.happenedAt.getTime(), rank: mark.seq, kind: 'act', mark })

function turned(course: Course, turn: Turn, planned: readonly Stop[]): Course {
  if (turn.kind === 'act') return actOn(course, turn.mark, planned)
  return turn.kind === 'begin' ? begun(course, turn.stop) : ended(course, turn.stop)
}

const ended = (course: Course, stop: Stop): Course =>
  isSame(course.showing, stop) && course.showing?.isPlanned ? closed(course, stop.endsAt) : course

function begun(course: Course, stop: Stop): Course {
  if (isSkipped(course, stop) || isSame(course.showing, stop)) return planOnly(course, stop)
  return opened(course, { targetKey: stop.targetKey, aim: stop.aim, sinceAt: stop.startsAt, isPlanned: true })
}

/** A target that was begun early is as planned from its planned start on. */
function planOnly(course: Course, stop: Stop): Course {
  const { showing } = course
  return showing !== null && isSame(showing, stop) ? { ...course, showing: { ...showing, isPlanned: true } } : course
}

function actOn(course: Course, mark: Mark, planned: readonly Stop[]): Course {
  const at = mark.happenedAt
  const showing = payloadOf('showing', mark)
  if (showing) return showingNow(course, { ...showing, sinceAt: at, isPlanned: isOnPlan(planned, showing, at) })
  const shown = payloadOf('shown', mark)
  if (shown) return course.showing?.targetKey === shown.targetKey ? closed(course, at) : course
  const skipped = payloadOf('skipped', mark)
  if (skipped) return skippedNow(course, { ...skipped, stop: meantStop(course, skipped.targetKey, planned, at) })
  const trouble = payloadOf('trouble', mark)
  return trouble ? { ...course, trouble: trouble.what } : course
}

const isOnPlan = (
  planned: readonly Stop[],
  { targetKey, aim }: Pick<Showing, 'targetKey' | 'aim'>,
  at: Date,
): boolean =>
  planned.some((stop) => stop.startsAt <= at && at < stop.endsAt && stop.targetKey === targetKey && stop.aim === aim)

/** What is on now ends when it is skipped itself. */
const skippedNow = (course: Course, skip: Skip): Course => ({
  ...course,
  skipped: [...course.skipped, skip],
  showing: course.showing?.targetKey === skip.targetKey ? null : course.showing,
})

/**
 * The one stop that a skip means: of a thing that is on, its running stop or, when it was begun early, the station's next
 * one; of a thing that is not on, its first stop that is not over. Null when what is on stands on no such stop.
 */
function meantStop(course: Course, targetKey: string, planned: readonly Stop[], at: Date): Stop | null {
  const { showing } = course
  const left = planned.filter((stop) => stop.endsAt > at)
  if (showing?.targetKey !== targetKey) return left.find((stop) => stop.targetKey === targetKey) ?? null
  const next = left.find((stop) => stop.startsAt > at && !isSkipped(course, stop))
  return left.find((stop) => (stop.startsAt <= at || stop === next) && isSame(showing, stop)) ?? null
}

/**
 * What an operator shows ends trouble there and takes back a skip of the same target, but for a stop that is over;
 * showing the same again changes nothing.
 */
function showingNow(course: Course, showing: Showing): Course {
  const isOver = ({ stop }: Skip) => stop !== null && stop.endsAt <= showing.sinceAt
  const skipped = course.skipped.filter((skip) => skip.targetKey !== showing.targetKey || isOver(skip))
  const clear = { ...course, skipped, trouble: null }
  const isAlready = course.showing?.targetKey === showing.targetKey && course.showing.aim === showing.aim
  return isAlready ? clear : opened(clear, showing)
}

function opened(course: Course, showing: Showing): Course {
  return { ...closed(course, showing.sinceAt), showing }
}

function closed(course: Course, toAt: Date): Course {
  const { showing, shown } = course
  if (showing === null) return course
  return {
    ...course,
    showing: null,
    shown: [...shown, { targetKey: showing.targetKey, fromAt: showing.sinceAt, toAt }],
  }
}
