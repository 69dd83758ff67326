import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import type { DateDesk, YearQuery } from '../../server/desk/dates.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { FIRST_RULES } from '../../server/tours/date-rules.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'
import { TELESCOPE_DRAFT } from '../support/field-data.ts'

const EVERYTHING: YearQuery = { siteId: null, from: '2026-12', telescopeIds: [] }

/** The first month of a year, once it is there. */
async function firstMonth(dates: DateDesk, query = EVERYTHING) {
  await dates.first(query)
  const found = dates.year(query).months[0]?.dates
  if (!found) throw new Error('The first month was waited for')
  return found
}

describe('the dates of a real list', () => {
  let folder: string
  let desk: Desk
  let siteId: string
  beforeAll(async () => {
    folder = freshFolder()
    desk = await openDesk(folder)
    siteId = desk.sites.add(north.site).id
    const [first] = north.telescopes
    if (first !== undefined) desk.telescopes.add(first)
  }, SLOW_MS)
  afterAll(async () => {
    await desk.close()
    removeFolder(folder)
  })

  it('are twelve months, the first of them at hand and the rest on their way', { timeout: SLOW_MS }, async () => {
    const dates = await firstMonth(desk.dates)
    expect(dates).toHaveLength(31)
    const year = desk.dates.year(EVERYTHING)
    expect(year.months.map(({ month }) => month)).toEqual([
      '2026-12',
      ...Array.from({ length: 11 }, (_, i) => `2027-${String(i + 1).padStart(2, '0')}`),
    ])
    const quarter = dates.find(({ date }) => date === '2026-12-17')
    expect(quarter).toMatchObject({ noDark: null, planets: ['saturn'] })
    expect(quarter?.showpieces).toEqual(expect.arrayContaining(['moon', 'saturn']))
  })

  it('are reckoned once: asked again they are at hand, and other rules judge them anew', {
    timeout: SLOW_MS,
  }, async () => {
    await firstMonth(desk.dates)
    const [before] = desk.dates.year(EVERYTHING).months
    expect(before?.dates).not.toBeNull()
    desk.dates.keepRules(siteId, { ...FIRST_RULES, weekdays: [1] })
    const [after] = desk.dates.year(EVERYTHING).months
    const isBroken = (date: string) =>
      after?.dates?.find((facts) => facts.date === date)?.broken.some(({ rule }) => rule === 'weekday')
    expect([isBroken('2026-12-18'), isBroken('2026-12-21')]).toEqual([true, false])
    desk.dates.keepRules(siteId, { ...FIRST_RULES, bedtime: '22:30' })
    expect(desk.dates.year({ ...EVERYTHING, from: '2027-11' }).months[0]?.dates).toBeNull()
  })

  it('name one date with what stands in for it', { timeout: SLOW_MS }, async () => {
    desk.dates.keepRules(siteId, FIRST_RULES)
    const { chosen, backUp } = await desk.dates.one({ siteId, telescopeIds: [] }, '2026-12-25')
    expect(chosen.date).toBe('2026-12-25')
    const january = await firstMonth(desk.dates, { ...EVERYTHING, from: '2027-01' })
    const near = [...(await firstMonth(desk.dates)), ...january].filter(
      ({ date }) => date > '2026-12-25' && date <= '2027-01-08',
    )
    const fewest = Math.min(...near.map(({ broken }) => broken.length))
    expect(backUp).toEqual(near.find(({ broken }) => broken.length === fewest))
  })

  it('are reckoned for the telescopes that are in use, and not for one that is put away', () => {
    const away = desk.telescopes.putAway(desk.telescopes.add({ ...TELESCOPE_DRAFT, name: 'Old one' }).id, true)
    const inUse = desk.telescopes.all().filter(({ id }) => id !== away.id)
    expect(desk.dates.year(EVERYTHING).telescopes).toEqual(inUse)
    expect(desk.dates.year({ ...EVERYTHING, telescopeIds: [away.id] }).telescopes).toEqual(inUse)
  })

  it('keep the rules of a site over a restart, and refuse wrong ones', { timeout: SLOW_MS }, async () => {
    const rules = { ...FIRST_RULES, holiday: [{ from: '2026-12-24', to: '2026-12-26', name: 'Christmas' }] }
    desk.dates.keepRules(siteId, rules)
    expect(() => desk.dates.keepRules(siteId, { ...rules, bedtime: '17:00' })).toThrow()
    expect(() => desk.dates.rules('nowhere')).toThrow()
    await desk.close()
    desk = await openDesk(folder)
    expect(desk.dates.rules(siteId)).toEqual(rules)
  })
})
