import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { FIRST_RULES } from '../../server/tours/date-rules.ts'
import { datePage } from '../../server/web/pages/date.ts'
import { dateEvents } from '../../server/web/pages/date-events.ts'
import { dateMonths } from '../../server/web/pages/date-months.ts'
import { dateRulesPage } from '../../server/web/pages/date-rules-form.ts'
import { darkText, moonText, rulesTexts } from '../../server/web/pages/date-text.ts'
import { datesPage } from '../../server/web/pages/dates.ts'
import { dateRuleFormProblems, dateRulesOf, dateRuleValues } from '../../server/web/routes/date-rules-draft.ts'
import { A_BRIGHT_DATE, A_BROKEN_DATE, A_CHOICE, A_DATE, A_YEAR, FULL_RULES } from '../support/dates-data.ts'
import { A_SITE, A_TELESCOPE } from '../support/field-data.ts'
import { ENGLISH, GERMAN, HOST, VISITOR } from '../support/page-data.ts'
import { asHost, asVisitor, type TestApp, testApp } from '../support/web.ts'

const nameOf = (key: string): string => key.toUpperCase()
const months = [...dateMonths(ENGLISH, A_YEAR, nameOf)]
const SUBJECT = { year: A_YEAR, months, sites: [A_SITE], kit: [A_TELESCOPE], thisMonth: '2026-11' }
const yearOf = (viewer = HOST, given: Partial<typeof SUBJECT> = {}) => {
  const { year } = datesPage(viewer, { ...SUBJECT, ...given })
  if (year === null) throw new Error('There is a site')
  return year
}

describe('the page of a year', () => {
  it('shows every date with every rule that it breaks, by name, and says in words which break none', () => {
    const [november] = yearOf().months
    expect(november?.rows.map(({ day, weekday }) => `${weekday} ${day}`)).toEqual([
      'Friday 13',
      'Saturday 14',
      'Sunday 15',
    ])
    expect(november?.rows[0]).toMatchObject({
      noneBroken: 'Breaks no rule',
      broken: [],
      showpieces: '1',
      showpieceNames: 'M13',
    })
    expect(november?.rows[1]?.broken).toEqual([
      'Day of the week: Saturday',
      'Season: November',
      'Holiday: Harvest day',
      'Club evening: on your list',
      'Other event: Camp',
      'Moon near first quarter: 4 days before it',
      'Moon just after new: 6 days after it',
      'Moon not near full: on the very day',
      'Dark before bedtime: 0 min, and 1 h are wanted',
      'Weeks between nights: 6 days before Autumn night',
    ])
    expect(yearOf().clean.map(({ text }) => text)).toEqual(['Friday 13 November 2026'])
    expect(yearOf().count).toBe('One of 3 dates breaks no rule')
  })

  it('lays a month out by weeks, each day with its number of broken rules', () => {
    const week = yearOf().months[0]?.weeks[0]
    expect(week).toHaveLength(7)
    expect(week?.map((cell) => cell?.mark ?? null)).toEqual([null, null, null, null, null, null, '–'])
  })

  it('says which months are still being worked out, and how to look again', () => {
    const { progress, months } = yearOf()
    expect(progress?.text).toBe('December 2026 is being worked out: 2 of 3 months are here.')
    expect(progress?.link.href).toBe(`/dates?site=${A_SITE.id}&row=${A_TELESCOPE.id}&from=2026-11`)
    expect(months[1]?.waiting).toBe('Still being worked out.')
    const done = A_YEAR.months.filter(({ dates }) => dates !== null)
    expect(yearOf(HOST, { year: { ...A_YEAR, months: done } }).progress).toBeNull()
  })

  it('lets the host change the rules, and a visitor read them', () => {
    expect(yearOf(HOST).change?.href).toBe(`/sites/${A_SITE.id}/date-rules`)
    expect(yearOf(VISITOR).change).toBeNull()
    expect(yearOf(VISITOR).rules).toContain('Season: September to November.')
    expect(rulesTexts(ENGLISH, { ...FULL_RULES, kind: 'dark-site' }).join(' ')).toContain('Moon just after new')
  })

  it('asks for a site first where there is none', () => {
    const page = datesPage(VISITOR, { ...SUBJECT, year: null, sites: [] })
    expect(page).toMatchObject({ year: null, empty: { text: 'The host has not entered a site yet.', link: null } })
  })
})

describe('a date in words', () => {
  const dark = (given: object) => darkText(ENGLISH, { ...A_DATE, ...given }, A_SITE.zone)

  it('says how long it is dark and from when, or why it is not', () => {
    const duskAt = new Date('2026-11-13T17:25:00Z')
    expect(dark({})).toBe('3 h 30 min, all of the public hours')
    expect(dark({ duskAt, darkMin: 185 })).toBe('3 h 5 min, from 18:25')
    expect(dark({ duskAt: null, isPolarNight: true })).toContain('(the Sun does not rise)')
    const without = { darkMin: 0, duskAt }
    expect(dark({ ...without, noDark: 'midnight-sun' })).toBe('Not dark: the Sun does not set')
    expect(dark({ ...without, noDark: 'sun-late' })).toBe('Not dark: the Sun sets only at 16:35')
    expect(dark({ ...without, noDark: 'sun-late', sunsetAt: null })).toBe('Not dark: the Sun is still up at bedtime')
    expect(dark({ ...without, noDark: 'never-dark' })).toBe('Not dark: the twilight lasts all night')
    expect(dark({ ...without, noDark: 'dusk-late' })).toBe('Not dark: it is dark only from 18:25, after bedtime')
  })

  it('says the phase, the height and the set of the Moon', () => {
    expect(moonText(ENGLISH, A_DATE, A_SITE.zone)).toBe('A growing crescent, up to 18° high, sets at 19:40')
    expect(moonText(ENGLISH, A_BROKEN_DATE, A_SITE.zone)).toBe('A growing crescent, not up')
    expect(moonText(ENGLISH, A_BRIGHT_DATE, A_SITE.zone)).toBe('A growing crescent')
  })
})

describe('the page of a night', () => {
  it('lists every rule in force as kept or broken, the back-up date, and the ways on', () => {
    const page = datePage(HOST, { date: A_CHOICE, nameOf })
    expect(page.verdict).toBe('Breaks no rule')
    expect(page.rules.every(({ text, isBroken }) => text === 'Kept' && !isBroken)).toBe(true)
    expect(page.backUp.link?.text).toBe('Saturday 14 November 2026')
    expect(page.backUp.text).toContain('Day of the week')
    expect(page.make?.href).toBe(
      `/nights/new?siteId=${A_SITE.id}&date=2026-11-13&opens=18%3A00&closes=21%3A30&row=${A_TELESCOPE.id}`,
    )
    const broken = datePage(HOST, { date: { ...A_CHOICE, chosen: A_BROKEN_DATE, backUp: null }, nameOf })
    expect(broken.rules.filter(({ isBroken }) => isBroken)).toHaveLength(9)
    expect(broken.facts.at(-1)?.text).toContain('go back by 60 minutes')
  })

  it('gives a visitor no way to plan, and nobody one where there are no public hours', () => {
    expect(datePage(VISITOR, { date: A_CHOICE, nameOf })).toMatchObject({ make: null })
    const bright = datePage(HOST, { date: { ...A_CHOICE, chosen: A_BRIGHT_DATE }, nameOf })
    expect(bright).toMatchObject({ make: null, calendar: null })
    expect(bright.noCalendar).not.toBeNull()
  })

  it('goes into a calendar with its setting up, and the back-up date as tentative', () => {
    const events = dateEvents(ENGLISH, A_CHOICE, nameOf)
    expect(events.map(({ summary, status }) => [summary, status])).toEqual([
      ['Setting up for the observing night', 'CONFIRMED'],
      ['Observing night', 'CONFIRMED'],
      ['Back-up date for the observing night', 'TENTATIVE'],
    ])
    expect(events[0]?.endsAt).toEqual(A_DATE.opensAt)
    expect((events[0]?.startsAt.getTime() ?? 1) % 300_000).toBe(0)
    expect(events[1]).toMatchObject({ startsAt: A_DATE.opensAt, endsAt: A_DATE.bedAt })
    expect(events[2]?.description).toMatch(/^Only if Friday 13 November 2026 is clouded out/)
    expect(() => dateEvents(ENGLISH, { ...A_CHOICE, chosen: A_BRIGHT_DATE }, nameOf)).toThrow()
  })
})

describe('the form of the rules', () => {
  it('gives back what it was given', () => {
    expect(dateRulesOf(dateRuleValues(FULL_RULES, ENGLISH), ENGLISH)).toEqual(FULL_RULES)
    expect(dateRulesOf(dateRuleValues(FIRST_RULES, ENGLISH), ENGLISH)).toEqual(FIRST_RULES)
    expect(dateRulesOf(dateRuleValues(FULL_RULES, GERMAN), GERMAN)).toEqual(FULL_RULES)
  })

  it.each([
    ['2027-07-20 bis 2027-08-02 Sommerlager'],
    ['2027-07-20 Bis 2027-08-02, Sommerlager'],
    ['2027-07-20 to 2027-08-02 Sommerlager'],
    ['2027-07-20 – 2027-08-02 Sommerlager'],
    ['2027-07-20-2027-08-02: Sommerlager'],
  ])('reads days in a row by a word or a dash: %s', (line) => {
    const { holiday } = dateRulesOf({ holiday: line }, GERMAN)
    expect(holiday).toEqual([{ from: '2027-07-20', to: '2027-08-02', name: 'Sommerlager' }])
  })

  it('shows days in a row with the word of the language, and takes a dash before a name for no second day', () => {
    const rules = { ...FIRST_RULES, club: [{ from: '2027-01-01', to: '2027-01-03', name: 'Kurs' }] }
    expect(dateRuleValues(rules, GERMAN).club).toBe('2027-01-01 bis 2027-01-03 Kurs')
    expect(dateRulesOf({ club: '2027-01-01 - Kurs' }, GERMAN).club).toEqual([
      { from: '2027-01-01', to: '2027-01-01', name: '- Kurs' },
    ])
  })

  it('names the line that has no date, once, and keeps all that was typed', () => {
    const values = { ...dateRuleValues(FIRST_RULES, ENGLISH), holiday: '2026-12-24 Eve\n\n24.12.2027 Eve\n2026-02-30' }
    const found = dateRuleFormProblems(
      [
        { field: 'holiday.1.from', key: 'problem.pattern' },
        { field: 'holiday.1.to', key: 'problem.pattern' },
        { field: 'holiday.2', key: 'problem.busy-no-day', values: { date: '2026-02-30' } },
        { field: 'club.0.name', key: 'problem.too-long' },
        { field: 'event', key: 'problem.too-many' },
      ],
      values,
    )
    const page = dateRulesPage(HOST, A_SITE, { values, problems: found })
    expect(page.problems?.items.map(({ text }) => text)).toEqual([
      expect.stringContaining('Line 3 (“24.12.2027 Eve”) has no date that can be read.'),
      expect.stringContaining('Line 4 names a day that no calendar has: 2026-02-30.'),
      expect.stringContaining('at most 60 letters'),
      expect.stringContaining('At most 100 lines fit.'),
    ])
    expect(page.busy[0]?.value).toBe(values.holiday)
  })
})

describe('the routes of dates', () => {
  let the: TestApp
  beforeAll(async () => {
    the = await testApp()
  })
  afterAll(() => the.app.close())
  const get = (url: string, as = asVisitor) => the.app.inject(as({ method: 'GET', url }))
  const post = (payload: string) =>
    the.app.inject(
      asHost({
        method: 'POST',
        url: `/sites/${A_SITE.id}/date-rules`,
        headers: { 'content-type': 'application/x-www-form-urlencoded' },
        payload,
      }),
    )

  it('answer visitors with the year, a night and its calendar', async () => {
    expect((await get(`/dates?site=${A_SITE.id}&from=2026-11&row=a&row=b`)).statusCode).toBe(200)
    expect((await get(`/dates?row=a`)).statusCode).toBe(200)
    expect((await get('/dates/2026-11-13')).statusCode).toBe(200)
    const calendar = await get('/dates/2026-11-13/calendar.ics')
    expect(calendar.headers['content-type']).toBe('text/calendar; charset=utf-8')
    expect(calendar.headers['content-disposition']).toContain('night-2026-11-13.ics')
    expect(calendar.body).toContain('\r\nSTATUS:TENTATIVE\r\n')
    const json = (await get('/api/dates')).json()
    expect(json).toMatchObject({ siteId: A_SITE.id, months: [{ month: '2026-11' }, { dates: null }, { dates: [] }] })
  })

  it('refuse what is no site, no month and no day', async () => {
    const codes = ['/dates?site=nowhere', '/dates?from=2026-13', '/dates/2026-02-30', '/dates/tomorrow'].map(
      async (url) => (await get(url)).statusCode,
    )
    expect(await Promise.all(codes)).toEqual([404, 422, 422, 422])
  })

  it('keep rules for the host alone, and refuse wrong ones with the form as it was typed', async () => {
    expect((await get(`/sites/${A_SITE.id}/date-rules`)).statusCode).not.toBe(200)
    expect((await get(`/sites/${A_SITE.id}/date-rules`, asHost)).statusCode).toBe(200)
    const good = new URLSearchParams(dateRuleValues({ ...FIRST_RULES, weekdays: [4] }, ENGLISH)).toString()
    const kept = await post(good)
    expect([kept.statusCode, kept.headers.location]).toEqual([303, `/dates?site=${A_SITE.id}`])
    expect(the.desk.dates.rules(A_SITE.id).weekdays).toEqual([4])
    expect((await post('kind=town')).statusCode).toBe(422)
  })

  it('open the form of a night filled in with date, hours and row', async () => {
    const url = `/nights/new?siteId=${A_SITE.id}&date=2026-11-13&opens=18:00&closes=21:30&row=${A_TELESCOPE.id}`
    expect((await get(url, asHost)).statusCode).toBe(200)
  })
})
