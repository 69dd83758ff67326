import type { ChosenDate, DateDesk, YearOfDates } from '../../server/desk/dates.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { invalid } from '../../server/errors.ts'
import type { JudgedDate } from '../../server/tours/date-choice.ts'
import { type DateRules, dateRuleProblems, FIRST_RULES } from '../../server/tours/date-rules.ts'
import { datePage } from '../../server/web/pages/date.ts'
import { dateMonths } from '../../server/web/pages/date-months.ts'
import { dateRulesPage } from '../../server/web/pages/date-rules-form.ts'
import { datesPage } from '../../server/web/pages/dates.ts'
import { A_SITE, A_TELESCOPE } from './field-data.ts'
import { HOST, VISITOR } from './page-data.ts'

/** Friday, 13 November 2026: a Moon two days before first quarter, and nothing against it. */
export const A_DATE: JudgedDate = {
  date: '2026-11-13',
  sunsetAt: new Date('2026-11-13T15:35:00Z'),
  opensAt: new Date('2026-11-13T17:00:00Z'),
  bedAt: new Date('2026-11-13T20:30:00Z'),
  duskAt: new Date('2026-11-13T16:42:00Z'),
  darkMin: 210,
  noDark: null,
  isPolarNight: false,
  clocksMin: 0,
  moon: {
    litFraction: 0.2,
    isWaxing: true,
    highestDeg: 18.4,
    risesAt: null,
    setsAt: new Date('2026-11-13T18:40:00Z'),
    newDays: 4.4,
    firstQuarterDays: -3.8,
    fullDays: -11,
  },
  planets: ['saturn'],
  showpieces: ['m13'],
  broken: [],
}

/** The day after, which breaks whatever can be broken. */
export const A_BROKEN_DATE: JudgedDate = {
  ...A_DATE,
  date: '2026-11-14',
  darkMin: 0,
  noDark: 'never-dark',
  duskAt: null,
  clocksMin: -60,
  planets: [],
  showpieces: [],
  moon: { ...A_DATE.moon, highestDeg: -3, setsAt: null },
  broken: [
    { rule: 'weekday' },
    { rule: 'season' },
    { rule: 'holiday', name: 'Harvest day' },
    { rule: 'club', name: '' },
    { rule: 'event', name: 'Camp' },
    { rule: 'first-quarter', days: -3.8 },
    { rule: 'after-new', days: 6 },
    { rule: 'near-full', days: 0.2 },
    { rule: 'dark', darkMin: 0, needMin: 60 },
    { rule: 'apart', title: 'Autumn night', date: '2026-11-20', days: 6 },
  ],
}

/** A date on which the Sun is up at bedtime. */
export const A_BRIGHT_DATE: JudgedDate = { ...A_BROKEN_DATE, date: '2026-11-15', opensAt: null, noDark: 'sun-late' }

const DATES = [A_DATE, A_BROKEN_DATE, A_BRIGHT_DATE]
const BUSY = [{ from: '2026-12-24', to: '2026-12-26', name: 'Christmas' }]
export const FULL_RULES: DateRules = { ...FIRST_RULES, months: [9, 10, 11], holiday: BUSY, club: BUSY, event: BUSY }
const NO_RULES: DateRules = { ...FIRST_RULES, weekdays: [], isMoonRuled: false, darkHours: 0, weeksApart: 0 }

export const A_YEAR: YearOfDates = {
  site: A_SITE,
  from: '2026-11',
  rules: FULL_RULES,
  telescopes: [A_TELESCOPE],
  rowIds: [A_TELESCOPE.id],
  months: [
    { month: '2026-11', dates: DATES },
    { month: '2026-12', dates: null },
    { month: '2027-01', dates: [] },
  ],
}
export const A_CHOICE: ChosenDate = { ...A_YEAR, chosen: A_DATE, backUp: A_BROKEN_DATE }

/** Dates over plain data; rules are kept. */
export function fakeDates(sites: Pick<Desk['sites'], 'find'>): DateDesk {
  let rules = FULL_RULES
  const at = (siteId: string | null) => (siteId === null ? A_SITE : sites.find(siteId))
  return {
    year: ({ siteId }) => ({ ...A_YEAR, site: at(siteId), rules }),
    async first({ siteId }) {
      at(siteId)
    },
    async one({ siteId }, date) {
      const chosen = DATES.find((known) => known.date === date)
      if (chosen === undefined) throw invalid([{ field: 'date', key: 'problem.no-such-day' }])
      return { ...A_CHOICE, site: at(siteId), chosen }
    },
    rules(siteId) {
      sites.find(siteId)
      return rules
    },
    keepRules(siteId, draft) {
      sites.find(siteId)
      const problems = dateRuleProblems(draft)
      if (problems.length > 0) throw invalid(problems)
      rules = draft
    },
  }
}

const nameOf = (key: string): string => key
const months = [...dateMonths(HOST.words, A_YEAR, nameOf)]
const THE_DATES = { year: A_YEAR, months, sites: [A_SITE], kit: [A_TELESCOPE], thisMonth: '2026-11' }
const WRONG_RULES = {
  values: { kind: 'school', holiday: 'tomorrow', 'weekdays.5': 'true' },
  problems: [
    { field: 'bedtime', key: 'problem.bedtime-early', values: { opens: '18:00' } },
    { field: 'holiday', key: 'problem.busy-line', values: { line: 1, text: 'tomorrow' } },
  ],
}

export const DATE_PAGES = {
  dates: [datesPage(HOST, THE_DATES), datesPage(VISITOR, { ...THE_DATES, year: null, months: [], sites: [], kit: [] })],
  date: [
    datePage(HOST, { date: { ...A_CHOICE, chosen: A_BROKEN_DATE, backUp: A_DATE }, nameOf }),
    datePage(VISITOR, {
      date: { ...A_CHOICE, rules: NO_RULES, telescopes: [], chosen: { ...A_BRIGHT_DATE, broken: [] }, backUp: null },
      nameOf,
    }),
  ],
  'date-rules': [dateRulesPage(HOST, A_SITE, WRONG_RULES), dateRulesPage(HOST, A_SITE, { values: {}, problems: [] })],
} as const
