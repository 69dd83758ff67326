import type { DateFacts } from './date-facts.ts'
import { BUSY_KINDS, type BusyKind, type DateRules } from './date-rules.ts'

/** A rule of the host's that a date breaks. */
export type Broken =
  | { readonly rule: 'weekday' | 'season' }
  | { readonly rule: BusyKind; readonly name: string }
  /** `days` after first quarter, or after new Moon; less than 0 before it. */
  | { readonly rule: 'first-quarter' | 'after-new' | 'near-full'; readonly days: number }
  | { readonly rule: 'dark'; readonly darkMin: number; readonly needMin: number }
  | { readonly rule: 'apart'; readonly title: string; readonly date: string; readonly days: number }
type RuleName = Broken['rule']

/** A night that is planned or was held. */
export interface OtherNight {
  readonly title: string
  readonly date: string
}

const DAY_MS = 86_400_000
/** An evening that comes a little before new Moon is as good as one after it. */
const BEFORE_NEW_DAYS = 1

/** Every rule that a date breaks, in the order in which the host reads them; [] for none. */
export const brokenRules = (facts: DateFacts, rules: DateRules, nights: readonly OtherNight[]): readonly Broken[] => [
  ...calendarRules(facts.date, rules),
  ...moonRules(facts, rules),
  ...darkRule(facts, rules),
  ...apartRule(facts.date, rules, nights),
]

/** The rules that ask for something at all, in the same order. */
export function rulesInForce(rules: DateRules): readonly RuleName[] {
  const moon: readonly RuleName[] = [rules.kind === 'dark-site' ? 'after-new' : 'first-quarter', 'near-full']
  return [
    ...(rules.weekdays.length > 0 ? (['weekday'] as const) : []),
    ...(rules.months.length > 0 ? (['season'] as const) : []),
    ...BUSY_KINDS.filter((kind) => rules[kind].length > 0),
    ...(rules.isMoonRuled ? moon : []),
    ...(rules.darkHours > 0 ? (['dark'] as const) : []),
    ...(rules.weeksApart > 0 ? (['apart'] as const) : []),
  ]
}

/** Day of the week of a calendar date, 1 for Monday to 7. */
export const weekdayOf = (date: string): number => ((new Date(`${date}T12:00Z`).getUTCDay() + 6) % 7) + 1

function calendarRules(date: string, rules: DateRules): readonly Broken[] {
  const isIn = (list: readonly number[], value: number) => list.length === 0 || list.includes(value)
  const busy = BUSY_KINDS.flatMap((rule) =>
    rules[rule].filter(({ from, to }) => from <= date && date <= to).map(({ name }): Broken => ({ rule, name })),
  )
  return [
    ...(isIn(rules.weekdays, weekdayOf(date)) ? [] : [{ rule: 'weekday' } as const]),
    ...(isIn(rules.months, Number(date.slice(5, 7))) ? [] : [{ rule: 'season' } as const]),
    ...busy,
  ]
}

function moonRules({ moon }: DateFacts, { kind, isMoonRuled, moonDays, fullDays }: DateRules): readonly Broken[] {
  if (!isMoonRuled) return []
  const { firstQuarterDays, newDays, fullDays: days } = moon
  const isDarkKept = newDays >= -BEFORE_NEW_DAYS && newDays <= moonDays
  const wanted: readonly Broken[] =
    kind === 'dark-site'
      ? isDarkKept
        ? []
        : [{ rule: 'after-new', days: newDays }]
      : Math.abs(firstQuarterDays) <= moonDays
        ? []
        : [{ rule: 'first-quarter', days: firstQuarterDays }]
  return [...wanted, ...(Math.abs(days) <= fullDays ? [{ rule: 'near-full', days } as const] : [])]
}

function darkRule({ darkMin }: DateFacts, { darkHours }: DateRules): readonly Broken[] {
  const needMin = darkHours * 60
  return darkMin >= needMin ? [] : [{ rule: 'dark', darkMin, needMin }]
}

/** The nearest other night, where it is less than so many weeks away. */
function apartRule(date: string, { weeksApart }: DateRules, nights: readonly OtherNight[]): readonly Broken[] {
  const apart = (other: OtherNight): number => Math.round((Date.parse(other.date) - Date.parse(date)) / DAY_MS)
  const [nearest] = nights
    .map((other) => ({ ...other, days: apart(other) }))
    .filter(({ days }) => Math.abs(days) < 7 * weeksApart)
    .sort((a, b) => Math.abs(a.days) - Math.abs(b.days))
  return nearest === undefined ? [] : [{ rule: 'apart', title: nearest.title, date: nearest.date, days: nearest.days }]
}
