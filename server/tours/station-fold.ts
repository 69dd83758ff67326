import { Value } from 'typebox/value'
import type { StationNow } from './field.ts'
import { MARK_PAYLOADS, type Mark } from './mark.ts'
import type { Aim } from './target.ts'
import type { Stop } from './tour.ts'

interface Showing {
  readonly targetKey: string
  readonly aim: Aim
  readonly sinceAt: Date
  readonly isPlanned: boolean
}

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

type Turn = { readonly at: Date; readonly rank: number; readonly apply: (course: Course) => Course }

/** One station at an instant, from its own stops and its own standing acts (oldest first, none after that instant). */
export function stationNow(stationId: string, stops: readonly Stop[], acts: readonly Mark[], at: Date): StationNow {
  const planned = [...stops].sort((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
  const turns = [...planned.flatMap(stopTurns), ...acts.map((mark) => actTurn(mark, planned))]
  turns.sort((a, b) => a.at.getTime() - b.at.getTime() || a.rank - b.rank)
  const past = turns.filter((turn) => turn.at <= at)
  const start: Course = { showing: null, shown: [], skipped: [], trouble: null }
  const course = past.reduce((sum, turn) => turn.apply(sum), start)
  const { showing } = course
  const { untilAt, next } = aheadOf(course, turns.slice(past.length))
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
): { readonly untilAt: Date | null; readonly next: Showing | null } {
  let course = now
  let untilAt: Date | null = null
  for (const turn of turns) {
    const after = turn.apply(course)
    const isOther = after.showing?.sinceAt.getTime() !== course.showing?.sinceAt.getTime()
    if (isOther && now.showing !== null) untilAt ??= turn.at
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
function stopTurns(stop: Stop): Turn[] {
  const end = (course: Course): Course =>
    isSame(course.showing, stop) && course.showing?.isPlanned ? closed(course, stop.endsAt) : course
  const begin = (course: Course): Course => {
    if (isSkipped(course, stop) || isSame(course.showing, stop)) return planOnly(course, stop)
    return opened(course, { targetKey: stop.targetKey, aim: stop.aim, sinceAt: stop.startsAt, isPlanned: true })
  }
  return [
    { at: stop.endsAt, rank: -2, apply: end },
    { at: stop.startsAt, rank: -1, apply: begin },
  ]
}

/** A target that was begun early is as planned from its planned start on. */
function planOnly(course: Course, stop: Stop): Course {
  const { showing } = course
  return showing !== null && isSame(showing, stop) ? { ...course, showing: { ...showing, isPlanned: true } } : course
}

function actTurn(mark: Mark, planned: readonly Stop[]): Turn {
  return { at: mark.happenedAt, rank: mark.seq, apply: (course) => actOn(course, mark, planned) }
}

function actOn(course: Course, mark: Mark, planned: readonly Stop[]): Course {
  const { kind, payload, happenedAt } = mark
  if (kind === 'showing' && Value.Check(MARK_PAYLOADS.showing, payload)) {
    const isPlanned = planned.some(
      (stop) =>
        stop.startsAt <= happenedAt &&
        happenedAt < stop.endsAt &&
        stop.targetKey === payload.targetKey &&
        stop.aim === payload.aim,
    )
    return showingNow(course, { targetKey: payload.targetKey, aim: payload.aim, sinceAt: happenedAt, isPlanned })
  }
  if (kind === 'shown' && Value.Check(MARK_PAYLOADS.shown, payload)) {
    return course.showing?.targetKey === payload.targetKey ? closed(course, happenedAt) : course
  }
  if (kind === 'skipped' && Value.Check(MARK_PAYLOADS.skipped, payload)) {
    const { targetKey, why } = payload
    const skipped = [...course.skipped, { targetKey, why, stop: meantStop(course, targetKey, planned, happenedAt) }]
    const isNow = course.showing?.targetKey === payload.targetKey
    return { ...course, skipped, showing: isNow ? null : course.showing }
  }
  if (kind === 'trouble' && Value.Check(MARK_PAYLOADS.trouble, payload)) return { ...course, trouble: payload.what }
  return course
}

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
