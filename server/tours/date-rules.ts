import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { isDay } from './hours.ts'
import { CalendarDate, WallClock } from './night.ts'
import { schemaProblems } from './schema-problems.ts'

/** What kind of night a host looks for: it says how dark it has to be and where the Moon is wanted. */
export const NIGHT_KINDS = ['town', 'school', 'dark-site'] as const
export type NightKind = (typeof NIGHT_KINDS)[number]

export const BUSY_KINDS = ['holiday', 'club', 'event'] as const
export type BusyKind = (typeof BUSY_KINDS)[number]

/** Days on which something else is on, both ends included. */
export const BusyDays = Type.Object({
  from: CalendarDate,
  to: CalendarDate,
  name: Type.String({ maxLength: 60 }),
})
export type BusyDays = Static<typeof BusyDays>

const BusyList = Type.Array(BusyDays, { maxItems: 100 })

/** What a host asks of a date at a site. Days of the week are 1, Monday, to 7; an empty list, false or 0 asks for nothing. */
export const DateRules = Type.Object({
  kind: Type.Enum(NIGHT_KINDS),
  afterSunsetMin: Type.Integer({ minimum: 0, maximum: 180 }),
  opensFrom: WallClock,
  /** When the night ends because people go to bed; before noon it is of the next morning. */
  bedtime: WallClock,
  darkHours: Type.Number({ minimum: 0, maximum: 6 }),
  weekdays: Type.Array(Type.Integer({ minimum: 1, maximum: 7 }), { maxItems: 7 }),
  months: Type.Array(Type.Integer({ minimum: 1, maximum: 12 }), { maxItems: 12 }),
  isMoonRuled: Type.Boolean(),
  /** Days off first quarter, or after new Moon, that still do. */
  moonDays: Type.Number({ minimum: 0, maximum: 7 }),
  /** Days on either side of full Moon that do not. */
  fullDays: Type.Number({ minimum: 0, maximum: 7 }),
  weeksApart: Type.Integer({ minimum: 0, maximum: 26 }),
  backUpDays: Type.Integer({ minimum: 1, maximum: 60 }),
  holiday: BusyList,
  club: BusyList,
  event: BusyList,
})
export type DateRules = Static<typeof DateRules>

/** Common practice where the trade has a figure (monthly, near first quarter, never near full), our judgement for the rest. */
export const FIRST_RULES: DateRules = {
  kind: 'town',
  afterSunsetMin: 30,
  opensFrom: '18:00',
  bedtime: '21:30',
  darkHours: 1,
  weekdays: [5, 6],
  months: [],
  isMoonRuled: true,
  moonDays: 3,
  fullDays: 3,
  weeksApart: 4,
  backUpDays: 14,
  holiday: [],
  club: [],
  event: [],
}

const NOON = '12:00'

/** What is wrong with rules as typed in; [] when they can be kept. */
export function dateRuleProblems(draft: unknown): Problem[] {
  if (!Value.Check(DateRules, draft)) return schemaProblems(Value.Errors(DateRules, draft), DateRules)
  const { opensFrom, bedtime } = draft
  const isMorning = opensFrom < NOON
  const isEarly = !isMorning && bedtime >= NOON && bedtime <= opensFrom
  return [
    ...(isMorning ? [{ field: 'opensFrom', key: 'problem.opens-morning' }] : []),
    ...(isEarly ? [{ field: 'bedtime', key: 'problem.bedtime-early', values: { opens: opensFrom } }] : []),
    ...BUSY_KINDS.flatMap((kind) => draft[kind].flatMap((days, i) => busyProblems(`${kind}.${i}`, days))),
  ]
}

function busyProblems(field: string, { from, to }: BusyDays): Problem[] {
  const strange = [from, to].find((date) => !isDay(date))
  if (strange !== undefined) return [{ field, key: 'problem.busy-no-day', values: { date: strange } }]
  return to < from ? [{ field, key: 'problem.busy-order', values: { from, to } }] : []
}
