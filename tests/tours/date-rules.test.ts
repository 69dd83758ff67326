import { describe, expect, it } from 'vitest'
import { type Broken, brokenRules, rulesInForce } from '../../server/tours/date-broken.ts'
import { backUpOf, type JudgedDate, judged } from '../../server/tours/date-choice.ts'
import type { DateFacts } from '../../server/tours/date-facts.ts'
import { type DateRules, dateRuleProblems, FIRST_RULES } from '../../server/tours/date-rules.ts'
import { A_DATE } from '../support/dates-data.ts'

/** Asks for nothing at all. */
const LAX: DateRules = {
  ...FIRST_RULES,
  weekdays: [],
  isMoonRuled: false,
  darkHours: 0,
  weeksApart: 0,
}
const BUSY = { from: '2026-11-13', to: '2026-11-15', name: 'Fair' }
const rules = (given: Partial<DateRules>): DateRules => ({ ...LAX, ...given })
const broken = (given: Partial<DateRules>, facts: DateFacts = A_DATE, nights: Parameters<typeof brokenRules>[2] = []) =>
  brokenRules(facts, rules(given), nights)
const names = (found: readonly Broken[]) => found.map(({ rule }) => rule)
const withMoon = (moon: Partial<DateFacts['moon']>): DateFacts => ({ ...A_DATE, moon: { ...A_DATE.moon, ...moon } })

describe('each rule of a host', () => {
  it('asks for nothing where it is empty, and then is not in force', () => {
    expect(broken({})).toEqual([])
    expect(rulesInForce(LAX)).toEqual([])
    expect(rulesInForce(rules({ months: [1], club: [BUSY], isMoonRuled: true, kind: 'dark-site' }))).toEqual([
      'season',
      'club',
      'after-new',
      'near-full',
    ])
  })

  it('day of the week: a Friday is kept by Friday and broken by Saturday', () => {
    expect(broken({ weekdays: [5] })).toEqual([])
    expect(names(broken({ weekdays: [6, 7, 1, 2, 3, 4] }))).toEqual(['weekday'])
  })

  it('season: by its month', () => {
    expect(broken({ months: [11] })).toEqual([])
    expect(names(broken({ months: [10, 12] }))).toEqual(['season'])
  })

  it.each(['holiday', 'club', 'event'] as const)('%s: on every day from the first to the last, by name', (kind) => {
    expect(broken({ [kind]: [BUSY] })).toEqual([{ rule: kind, name: 'Fair' }])
    const last = { ...A_DATE, date: '2026-11-15' }
    expect(names(broken({ [kind]: [BUSY, BUSY] }, last))).toEqual([kind, kind])
    for (const date of ['2026-11-12', '2026-11-16']) expect(broken({ [kind]: [BUSY] }, { ...A_DATE, date })).toEqual([])
  })

  it('Moon near first quarter, in town and for schools, on either side', () => {
    for (const kind of ['town', 'school'] as const) {
      const asked = { kind, isMoonRuled: true, moonDays: 3 }
      const off = (firstQuarterDays: number) => names(broken(asked, withMoon({ firstQuarterDays })))
      expect([off(-3.1), off(-3), off(0), off(3), off(3.1)]).toEqual([['first-quarter'], [], [], [], ['first-quarter']])
    }
  })

  it('Moon just after new, at a dark site, whatever first quarter does', () => {
    const off = (newDays: number) =>
      names(broken({ kind: 'dark-site', isMoonRuled: true, moonDays: 3 }, withMoon({ newDays })))
    expect([off(-1.1), off(-1), off(3), off(3.1)]).toEqual([['after-new'], [], [], ['after-new']])
  })

  it('Moon not near full, by how many days', () => {
    const near = (fullDays: number) => broken({ isMoonRuled: true, moonDays: 7, fullDays: 3 }, withMoon({ fullDays }))
    expect([near(-3.1), near(-3), near(3), near(3.1)]).toEqual([
      [],
      [{ rule: 'near-full', days: -3 }],
      [{ rule: 'near-full', days: 3 }],
      [],
    ])
  })

  it('dark before bedtime: to the minute', () => {
    expect(broken({ darkHours: 3.5 })).toEqual([])
    expect(broken({ darkHours: 3.5 }, { ...A_DATE, darkMin: 209 })).toEqual([
      { rule: 'dark', darkMin: 209, needMin: 210 },
    ])
  })

  it('weeks between nights: names the nearest one that is too near, before or after', () => {
    const at = (date: string, title = date) => ({ date, title })
    const apart = (...nights: ReturnType<typeof at>[]) => broken({ weeksApart: 2 }, A_DATE, nights)
    expect(apart(at('2026-10-30'), at('2026-11-27'))).toEqual([])
    expect(apart(at('2026-10-31'), at('2026-11-20'))).toEqual([
      { rule: 'apart', title: '2026-11-20', date: '2026-11-20', days: 7 },
    ])
    expect(apart(at('2026-11-13', 'Same'))).toMatchObject([{ title: 'Same', days: 0 }])
  })

  it('names all that a date breaks at once', () => {
    const all = { weekdays: [1], months: [1], holiday: [BUSY], isMoonRuled: true, moonDays: 1, darkHours: 5 }
    expect(names(broken(all))).toEqual(['weekday', 'season', 'holiday', 'first-quarter', 'dark'])
  })
})

describe('the dates of a year', () => {
  const on = (date: string, count: number): JudgedDate => ({
    ...A_DATE,
    date,
    broken: Array.from({ length: count }, () => ({ rule: 'weekday' })),
  })

  it('are all shown, in the order of the calendar', () => {
    const dates = ['2026-11-14', '2026-11-15', '2026-11-16'].map((date) => ({ ...A_DATE, date }))
    const shown = judged(dates, rules({ weekdays: [7] }), [])
    expect(shown.map(({ date, broken: found }) => [date, found.length])).toEqual([
      ['2026-11-14', 1],
      ['2026-11-15', 0],
      ['2026-11-16', 1],
    ])
  })

  it('have the first of those that break fewest rules as back-up, within so many days', () => {
    const dates = [
      on('2026-11-13', 0),
      on('2026-11-14', 2),
      on('2026-11-20', 1),
      on('2026-11-21', 1),
      on('2026-11-28', 0),
    ]
    const backUp = (backUpDays: number) => backUpOf('2026-11-13', dates, rules({ backUpDays }))?.date
    expect([backUp(1), backUp(14), backUp(15)]).toEqual(['2026-11-14', '2026-11-20', '2026-11-28'])
    expect(backUpOf('2026-11-28', dates, LAX)).toBeUndefined()
  })
})

describe('rules as typed in', () => {
  const problems = (given: object) =>
    dateRuleProblems({ ...FIRST_RULES, ...given }).map(({ field, key }) => [field, key])

  it('are fine as a site begins with them, and with a bedtime after midnight', () => {
    expect([problems({}), problems({ bedtime: '00:30' })]).toEqual([[], []])
  })

  it('are refused with a sentence each', () => {
    expect(problems({ opensFrom: '09:00' })).toEqual([['opensFrom', 'problem.opens-morning']])
    expect(problems({ bedtime: '18:00' })).toEqual([['bedtime', 'problem.bedtime-early']])
    expect(problems({ darkHours: Number.NaN, backUpDays: 0 })).toEqual([
      ['darkHours', 'problem.type'],
      ['backUpDays', 'problem.range'],
    ])
    expect(problems({ club: [BUSY, { ...BUSY, to: '2026-11-12' }] })).toEqual([['club.1', 'problem.busy-order']])
    expect(problems({ event: [{ ...BUSY, from: '2026-02-30' }] })).toEqual([['event.0', 'problem.busy-no-day']])
  })
})
