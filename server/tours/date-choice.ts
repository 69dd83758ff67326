import { type Broken, brokenRules, type OtherNight } from './date-broken.ts'
import type { DateFacts } from './date-facts.ts'
import type { DateRules } from './date-rules.ts'

/** A date with what the sky does on it and every rule that it breaks. */
export interface JudgedDate extends DateFacts {
  readonly broken: readonly Broken[]
}

/** Dates in their order, each with its broken rules; none is left out. */
export const judged = (
  dates: readonly DateFacts[],
  rules: DateRules,
  nights: readonly OtherNight[],
): readonly JudgedDate[] => dates.map((facts) => ({ ...facts, broken: brokenRules(facts, rules, nights) }))

const DAY_MS = 86_400_000

/** The first of the dates that break fewest rules in so many days after a date; undefined where no later date is known. */
export function backUpOf(
  date: string,
  dates: readonly JudgedDate[],
  { backUpDays }: DateRules,
): JudgedDate | undefined {
  const lastMs = Date.parse(date) + backUpDays * DAY_MS
  return dates
    .filter((other) => other.date > date && Date.parse(other.date) <= lastMs)
    .toSorted((a, b) => a.broken.length - b.broken.length || a.date.localeCompare(b.date))[0]
}
