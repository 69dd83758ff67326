import type { DateRuleStore } from '../../db/date-rules.ts'
import type { Clock } from '../clock.ts'
import { invalid, notFound, refuse } from '../errors.ts'
import { backUpOf, type JudgedDate, judged } from '../tours/date-choice.ts'
import type { DateFacts } from '../tours/date-facts.ts'
import { type DateRules, dateRuleProblems, FIRST_RULES } from '../tours/date-rules.ts'
import { digestOf } from '../tours/digest.ts'
import { calendarDate, isDay } from '../tours/hours.ts'
import { PLAIN_TELESCOPE } from '../tours/month-night.ts'
import { DEFAULT_SETTINGS } from '../tours/night.ts'
import type { Site } from '../tours/site.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Telescope } from '../tours/telescope.ts'
import type { Desk } from './desk.ts'
import type { JobKinds } from './job-kinds.ts'
import type { Jobs } from './jobs.ts'
import { shelf } from './shelf.ts'

/** Which year is asked for; null and [] take the site of the night at hand, the month that it is there, and the whole kit. */
export interface YearQuery {
  readonly siteId: string | null
  /** The first month, `YYYY-MM`. */
  readonly from: string | null
  readonly telescopeIds: readonly string[]
}

/** A month of the year; `dates` is null while it is being worked out. */
export interface MonthOfDates {
  readonly month: string
  readonly dates: readonly JudgedDate[] | null
}

/** Twelve months at a site with a row, each date with the rules that it breaks. */
export interface YearOfDates {
  readonly site: Site
  readonly from: string
  readonly rules: DateRules
  /** The row; none while the kit is empty, and 150 mm is reckoned with. */
  readonly telescopes: readonly Telescope[]
  /** What an address says to ask for the same row; [] for the whole kit. */
  readonly rowIds: readonly string[]
  readonly months: readonly MonthOfDates[]
}

/** One date, and the one that stands in for it. */
export interface ChosenDate extends Omit<YearOfDates, 'months'> {
  readonly chosen: JudgedDate
  readonly backUp: JudgedDate | null
}

export interface DateDesk {
  /** What is known of the year by now; what is missing is being worked out. */
  year(query: YearQuery): YearOfDates
  /** Waits for the first month of the year. */
  first(query: YearQuery): Promise<void>
  /** One date `YYYY-MM-DD` whole, with its back-up date. */
  one(query: Omit<YearQuery, 'from'>, date: string): Promise<ChosenDate>
  /** The host's rules at a site, or those that a site begins with. */
  rules(siteId: string): DateRules
  /** Keeps rules for a site; an invalid Fault names what is wrong. */
  keepRules(siteId: string, draft: DateRules): void
}

export type DateNeeds = Pick<Desk, 'sites' | 'telescopes' | 'nights'> & {
  readonly learning: Pick<Desk['learning'], 'inUse'>
  readonly dateRules: DateRuleStore
  readonly own: () => readonly ShowObject[]
  readonly jobs: Pick<Jobs, 'run'>
  readonly clock: Clock
}

/** Months that are kept: some years of some sites. */
const KEPT = 96
const MONTHS = 12

/** Choosing a date: a year of evenings, reckoned in the worker month by month, once for each site, row, public and hours. */
export function dateDesk(needs: DateNeeds): DateDesk {
  const { sites, nights, dateRules } = needs
  const months = monthShelf(needs)
  const rulesOf = (siteId: string): DateRules => dateRules.find(sites.find(siteId).id) ?? FIRST_RULES
  const others = () => nights.all().filter(({ state }) => state !== 'off')

  function yearOf(query: YearQuery) {
    const at = standing(needs, query)
    const rules = rulesOf(at.site.id)
    return { at, rules, asked: monthsFrom(at.from).map((month) => ({ month, ...months(at, rules, month) })) }
  }

  return {
    rules: rulesOf,
    keepRules(siteId, draft) {
      const { id } = sites.find(siteId)
      refuse(dateRuleProblems(draft))
      dateRules.put(id, draft)
    },
    year(query) {
      const { at, rules, asked } = yearOf(query)
      const shown = asked.map(({ month, known }) => {
        const dates = known()
        return { month, dates: dates && judged(dates, rules, others()) }
      })
      return { ...at, rules, months: shown }
    },
    async first(query) {
      await yearOf(query).asked[0]?.answer
    },
    async one(query, date) {
      if (!isDay(date)) throw invalid([{ field: 'date', key: 'problem.no-such-day' }])
      const at = standing(needs, { ...query, from: date.slice(0, 7) })
      const rules = rulesOf(at.site.id)
      const near = monthsFrom(at.from).slice(0, 1 + Math.ceil((rules.backUpDays + 1) / 28))
      const answers = await Promise.all(near.map((month) => months(at, rules, month).answer))
      const dates = judged(answers.flat(), rules, others())
      const chosen = dates.find((facts) => facts.date === date)
      if (chosen === undefined) throw invalid([{ field: 'date', key: 'problem.no-such-day' }])
      return { ...at, rules, chosen, backUp: backUpOf(date, dates, rules) ?? null }
    },
  }
}

type Standing = Pick<YearOfDates, 'site' | 'from' | 'telescopes' | 'rowIds'>

function standing(
  { sites, nights, telescopes, clock }: DateNeeds,
  { siteId, from, telescopeIds }: YearQuery,
): Standing {
  const near = sites.all().find(({ id }) => id === nights.current()?.site.id) ?? sites.all().at(-1)
  const site = siteId === null ? near : sites.find(siteId)
  if (site === undefined) throw notFound('site')
  const kit = telescopes.all().filter(({ isPutAway }) => isPutAway !== true)
  const row = kit.filter(({ id }) => telescopeIds.includes(id))
  return {
    site,
    from: from ?? calendarDate(clock.now(), site.zone).slice(0, 7),
    telescopes: row.length > 0 ? row : kit,
    rowIds: row.length < kit.length ? row.map(({ id }) => id) : [],
  }
}

/** Twelve months `YYYY-MM` from one on. */
function monthsFrom(from: string): readonly string[] {
  const [year = 0, first = 1] = from.split('-').map(Number)
  return Array.from({ length: MONTHS }, (_, i) => {
    const later = first - 1 + i
    return `${year + Math.floor(later / 12)}-${String((later % 12) + 1).padStart(2, '0')}`
  })
}

/** A month that was asked for: what it will be, and what it is by now. */
interface KeptMonth {
  readonly answer: Promise<readonly DateFacts[]>
  readonly known: () => readonly DateFacts[] | null
}

/** The months reckoned so far, those last used. */
function monthShelf({ learning, own, jobs }: DateNeeds) {
  const kept = shelf<KeptMonth>(KEPT)
  return ({ site, telescopes }: Standing, rules: DateRules, month: string): KeptMonth => {
    const { kind, afterSunsetMin, opensFrom, bedtime } = rules
    const ask: JobKinds['dates']['asked']['ask'] = {
      site,
      month,
      telescopes: telescopes.length > 0 ? telescopes : [PLAIN_TELESCOPE],
      noviceFactor: learning.inUse(site.id)?.factor ?? DEFAULT_SETTINGS.noviceFactor,
      hours: { kind, afterSunsetMin, opensFrom, bedtime },
    }
    const job = { ask, own: own() }
    const name = digestOf(JSON.stringify(job))
    const found = kept.take(name, () => watched(jobs.run<'dates'>({ kind: 'dates', ...job })))
    found.answer.catch(() => kept.drop(name))
    return found
  }
}

function watched(answer: Promise<readonly DateFacts[]>): KeptMonth {
  let known: readonly DateFacts[] | null = null
  answer.then(
    (dates) => {
      known = dates
    },
    () => {},
  )
  return { answer, known: () => known }
}
