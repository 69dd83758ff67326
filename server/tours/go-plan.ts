import { DateTime } from 'luxon'
import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import type { GoActor, GoState, Proposal } from './go-judge.ts'
import { type Dated, eveningDate, instantOf, isDay, nightHours, noonOf } from './hours.ts'
import { CalendarDate, type Night, WallClock } from './night.ts'
import { schemaProblems } from './schema-problems.ts'

/** What a host settles of one night's decision; null takes the usual, or says nothing. */
export const GoPlan = Type.Object({
  decidesAt: Type.Union([WallClock, Type.Null()]),
  /** Which limit of cloud holds; null goes by the kind of night that is looked for at the site. */
  cloudLimit: Type.Union([Type.Literal('cloud'), Type.Literal('moonCloud'), Type.Null()]),
  nextWordAt: Type.Union([WallClock, Type.Null()]),
  nextWordWhere: Type.String({ maxLength: 80 }),
  backUpDate: Type.Union([CalendarDate, Type.Null()]),
})
export type GoPlan = Static<typeof GoPlan>

export const FIRST_PLAN: GoPlan = {
  decidesAt: null,
  cloudLimit: null,
  nextWordAt: null,
  nextWordWhere: '',
  backUpDate: null,
}

/** What was decided, what had been proposed, and why. */
export interface GoDecision {
  readonly state: GoState
  readonly proposed: Proposal['state']
  readonly why: string
  readonly decidedAt: Date
  readonly decidedBy: GoActor
  readonly decidedName: string
}

/** What is wrong with a plan as typed in; [] when it can be kept. */
export function goPlanProblems(draft: unknown, night: Pick<Night, 'date'>): Problem[] {
  if (!Value.Check(GoPlan, draft)) return fieldProblems(draft)
  const { backUpDate } = draft
  if (backUpDate === null) return []
  if (!isDay(backUpDate)) return [{ field: 'backUpDate', key: 'problem.no-such-day' }]
  return backUpDate <= night.date ? [{ field: 'backUpDate', key: 'problem.go-back-up-early' }] : []
}

/** A text that is neither blank nor of the one form that it may have is told as that. */
const fieldProblems = (draft: unknown): Problem[] =>
  schemaProblems(Value.Errors(GoPlan, draft), GoPlan).map((problem) => {
    if (problem.field === 'decidesAt' || problem.field === 'nextWordAt') return { ...problem, key: 'problem.go-clock' }
    return problem.field === 'backUpDate' ? { ...problem, key: 'problem.no-such-day' } : problem
  })

const MINUTE_MS = 60_000
const USUAL_BEFORE_MIN = 180
const LATEST_BEFORE_MIN = 120

/** Common practice: between noon and two hours before the opening; here three hours before, rounded down to the half hour. */
export function usualDecision(night: Dated): Date {
  const { opensAt } = nightHours(night)
  const before = DateTime.fromJSDate(opensAt, { zone: night.site.zone }).minus({ minutes: USUAL_BEFORE_MIN })
  const rounded = before.startOf('minute').minus({ minutes: before.minute % 30 })
  const noonMs = noonOf(eveningDate(night), night.site.zone).getTime()
  const latestMs = opensAt.getTime() - LATEST_BEFORE_MIN * MINUTE_MS
  return new Date(Math.min(latestMs, Math.max(noonMs, rounded.toMillis())))
}

/** The last instant before the opening at which the clocks of the site show a time; the usual one for null. */
export function decisionAt(night: Dated, time: string | null): Date {
  if (time === null) return usualDecision(night)
  const onDate = (date: string): Date => instantOf({ ...night, date, opens: '00:00' }, time)
  const sameDay = onDate(night.date)
  if (sameDay < nightHours(night).opensAt) return sameDay
  return onDate(DateTime.fromISO(night.date, { zone: 'utc' }).minus({ days: 1 }).toFormat('yyyy-MM-dd'))
}

/** True when the time to decide has come, nothing is decided, and the night is not over. */
export const isDecisionDue = (night: Night, at: Date, now: Date): boolean =>
  night.state === 'planned' && now >= at && now < nightHours(night).closesAt

/** Everything that a sentence to publish is made of, as one text: the host's own sentence holds while it stays the same. */
export const sentenceFacts = (
  { state, title, date, opens, closes, site }: Night,
  { nextWordAt, nextWordWhere, backUpDate }: GoPlan,
): string => JSON.stringify([state, title, date, opens, closes, site.name, nextWordAt, nextWordWhere, backUpDate])
