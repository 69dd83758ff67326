import { describe, expect, it } from 'vitest'
import { bodyLook } from '../../server/sky/body.ts'
import { type DateFacts, type DatesAsk, monthOfDates } from '../../server/tours/date-facts.ts'
import { dateHours } from '../../server/tours/date-hours.ts'
import { FIRST_RULES } from '../../server/tours/date-rules.ts'
import { eveningSky } from '../../server/tours/evening.ts'
import { eveningChance, seenAtStep } from '../../server/tours/evening-chance.ts'
import { daysOf, wallClock } from '../../server/tours/hours.ts'
import { showpiecesOf } from '../../server/tours/missing-showpieces.ts'
import { whyNotOf } from '../../server/tours/offered.ts'
import { rowNight } from '../../server/tours/row-night.ts'
import { placeOf, type Site } from '../../server/tours/site.ts'
import { stepAt } from '../../server/tours/sky-at.ts'
import { A_SITE, A_TELESCOPE } from '../support/field-data.ts'
import { showObject } from '../support/show-objects.ts'

const OPEN: Site = { ...A_SITE, horizon: [], glow: [] }
const at = (latitudeDeg: number, longitudeDeg: number, zone: string): Site => ({
  ...OPEN,
  latitudeDeg,
  longitudeDeg,
  zone,
  heightM: 100,
})
const BERN = at(46.95, 7.45, 'Europe/Zurich')
const NORTH = at(68.4, 17.4, 'Europe/Oslo')
const CAPE = at(-33.9, 18.4, 'Africa/Johannesburg')
const KIRITIMATI = at(1.9, -157.4, 'Pacific/Kiritimati')

const hours = (site: Site, date: string, given: Partial<typeof FIRST_RULES> = {}) =>
  dateHours(site, date, { ...FIRST_RULES, ...given })
const clock = (instant: Date | null, { zone }: Site) => instant && wallClock(instant, zone)

describe('the hours of a date', () => {
  it('begin some time after sunset on a quarter, not before the first hour, and end at bedtime', () => {
    const winter = hours(BERN, '2026-12-17')
    expect([clock(winter.opensAt, BERN), clock(winter.bedAt, BERN)]).toEqual(['18:00', '21:30'])
    const spring = hours(BERN, '2027-04-15')
    const afterMin = ((spring.opensAt?.getTime() ?? 0) - (spring.sunsetAt?.getTime() ?? 0)) / 60_000
    expect(afterMin).toBeGreaterThanOrEqual(30)
    expect(afterMin).toBeLessThan(45)
    expect(clock(hours(BERN, '2026-12-17', { bedtime: '00:30' }).bedAt, BERN)).toBe('00:30')
  })

  it('are dark from the dusk that the kind of night needs', () => {
    const dark = (kind: (typeof FIRST_RULES)['kind']) => hours(BERN, '2027-03-15', { kind, bedtime: '22:00' })
    const [school, town, far] = [dark('school'), dark('town'), dark('dark-site')]
    expect(school.darkMin).toBeGreaterThan(town.darkMin)
    expect(town.darkMin).toBeGreaterThan(far.darkMin)
    expect(far.duskAt).toEqual(far.events.astronomicalDuskAt)
    expect(far.darkMin).toBe(Math.round((far.bedAt.getTime() - (far.duskAt?.getTime() ?? 0)) / 60_000))
  })

  it('count no minute before the public comes', () => {
    expect(hours(BERN, '2026-12-17')).toMatchObject({ darkMin: 210, noDark: null })
  })

  it('say why no part of them is dark', () => {
    expect(hours(BERN, '2027-06-21', { bedtime: '21:15' })).toMatchObject({ noDark: 'sun-late', opensAt: null })
    expect(hours(BERN, '2027-06-21', { bedtime: '22:30' })).toMatchObject({ noDark: 'dusk-late', darkMin: 0 })
    expect(hours(at(51.5, 0, 'Europe/London'), '2027-06-21', { kind: 'dark-site', bedtime: '23:30' }).noDark).toBe(
      'never-dark',
    )
    expect(hours(NORTH, '2027-06-21')).toMatchObject({ noDark: 'midnight-sun', sunsetAt: null, darkMin: 0 })
  })

  it('know the polar night, and are dark in it where the Sun is low enough', () => {
    const found = hours(NORTH, '2026-12-17')
    expect(found).toMatchObject({ isPolarNight: true, sunsetAt: null, darkMin: 210, noDark: null })
    expect(clock(found.opensAt, NORTH)).toBe('18:00')
  })

  it('follow the clocks of the site: the far side of the date line, and nights on which they change', () => {
    const line = hours(KIRITIMATI, '2026-11-13')
    expect(line.bedAt.toISOString()).toBe('2026-11-13T07:30:00.000Z')
    expect(line.darkMin).toBeGreaterThan(120)
    expect(hours(BERN, '2027-03-27').clocksMin).toBe(60)
    expect(hours(BERN, '2027-10-30').clocksMin).toBe(-60)
    expect(hours(at(-31.5, 159, 'Australia/Lord_Howe'), '2027-04-03').clocksMin).toBe(-30)
    expect(hours(CAPE, '2027-03-27').clocksMin).toBe(0)
  })
})

const MOON = showObject({
  key: 'moon',
  kind: 'moon',
  body: 'moon',
  raDeg: null,
  decDeg: null,
  magnitude: null,
  appeal: 1,
})
const SATURN = showObject({ ...MOON, key: 'saturn', kind: 'planet', body: 'saturn' })
const ORION = showObject({
  key: 'm42',
  kind: 'nebula',
  raDeg: 83.8,
  decDeg: -5.4,
  magnitude: 4,
  majorArcmin: 30,
  minorArcmin: 25,
  appeal: 0.9,
})
const PALE = showObject({ ...ORION, key: 'pale', kind: 'galaxy', decDeg: 20, magnitude: 10.5, appeal: 0.8 })
const LIST = [MOON, SATURN, ORION, PALE]

const ask = (site: Site, month: string): DatesAsk => ({
  site,
  month,
  telescopes: [A_TELESCOPE],
  noviceFactor: 4,
  hours: FIRST_RULES,
})
const month = (site: Site, text: string, list = LIST): readonly DateFacts[] => [...monthOfDates(ask(site, text), list)]

describe('the dates of a month', () => {
  it('are all its days, in order', () => {
    expect(daysOf('2028-02')).toHaveLength(29)
    expect(month(BERN, '2027-02').map(({ date }) => date)).toEqual(daysOf('2027-02'))
  })

  it('have the Moon of the sky: lit as it is seen, growing until it is full', () => {
    for (const { date, moon, opensAt, bedAt } of month(CAPE, '2027-03')) {
      const middle = new Date(((opensAt?.getTime() ?? 0) + bedAt.getTime()) / 2)
      expect(moon.litFraction, date).toBeCloseTo(bodyLook('moon', middle, placeOf(CAPE)).litFraction, 6)
      const later = bodyLook('moon', new Date(middle.getTime() + 6 * 3_600_000), placeOf(CAPE))
      const isNearTurn = Math.min(Math.abs(moon.newDays), Math.abs(moon.fullDays)) < 1
      if (!isNearTurn) expect(later.litFraction > moon.litFraction, date).toBe(moon.isWaxing)
    }
  })

  it('count days from the quarters: half lit near first quarter, all lit near full', () => {
    const dates = month(BERN, '2027-02')
    const nearest = (of: (facts: DateFacts) => number) =>
      dates.toSorted((a, b) => Math.abs(of(a)) - Math.abs(of(b)))[0]?.moon.litFraction
    expect(Math.abs((nearest(({ moon }) => moon.firstQuarterDays) ?? 0) - 0.5)).toBeLessThan(0.07)
    expect(nearest(({ moon }) => moon.fullDays)).toBeGreaterThan(0.98)
    expect(nearest(({ moon }) => moon.newDays)).toBeLessThan(0.02)
  })

  it('show what is up, behind no tree, and seen', () => {
    const december = month(BERN, '2026-12')
    const [first] = december
    expect(first).toMatchObject({ planets: ['saturn'] })
    const quarter = december.find(({ moon }) => Math.abs(moon.firstQuarterDays) < 0.6)
    expect(quarter?.showpieces).toEqual(expect.arrayContaining(['moon', 'saturn', 'm42']))
    const walled = { ...BERN, horizon: [{ azimuthDeg: 0, altitudeDeg: 60, name: 'wall' }] }
    expect(month(walled, '2026-12')[0]).toMatchObject({ planets: [], showpieces: [] })
  })

  it('show nothing while the Sun is up', () => {
    expect(month(NORTH, '2027-06').every(({ planets, showpieces }) => planets.length + showpieces.length === 0)).toBe(
      true,
    )
  })

  it('agree with the whole evening, reckoned every five minutes with eyepieces chosen anew', () => {
    const dates = month(BERN, '2027-01')
    const wrong = dates.filter((facts) => facts.showpieces.join() !== wholeEvening(facts).join())
    expect(wrong.length).toBeLessThanOrEqual(2)
  })
})

/** The showpieces that half of the newcomers see at some time of the public hours. */
function wholeEvening({ date, opensAt, bedAt }: DateFacts): readonly string[] {
  if (opensAt === null) return []
  const [opens, closes] = [wallClock(opensAt, BERN.zone), wallClock(bedAt, BERN.zone)]
  const telescopes = [A_TELESCOPE]
  const night = rowNight({ id: date, date, opens, closes, site: BERN, telescopes, settings: { noviceFactor: 4 } })
  const sky = eveningSky(night, LIST)
  const chance = eveningChance(sky, night, LIST)
  const [from, to] = [Math.ceil(stepAt(sky, opensAt)), Math.floor(stepAt(sky, bedAt))]
  return showpiecesOf(night, sky, LIST)
    .filter(({ key }) => {
      const row = LIST.findIndex((object) => object.key === key)
      const column = chance.candidates.findIndex(({ targetKey }) => targetKey === key)
      const whyNot = whyNotOf({ sky, site: BERN, mount: A_TELESCOPE }, row)
      return Array.from({ length: to - from + 1 }, (_, i) => from + i).some(
        (step) => whyNot(step) === null && seenAtStep(chance, 0, column, step).chance >= 0.5,
      )
    })
    .map(({ key }) => key)
}
