import { describe, expect, it } from 'vitest'
import { wrap180 } from '../../server/sky/angles.ts'
import { skyEvening } from '../../server/sky/evening.ts'
import { fixedSeason, seasonOf, yearOfEvenings } from '../../server/tours/season.ts'
import { showerPeak, sunLongitudeDeg } from '../../server/tours/shower-peak.ts'
import { showObject } from '../support/show-objects.ts'

const at = (latitudeDeg: number, longitudeDeg = 0) => ({ latitudeDeg, longitudeDeg, heightM: 0 })
const NOVEMBER = { year: 2026, month: 11 }
const monthsAt = (latitudeDeg: number, raHours: number, decDeg: number) =>
  fixedSeason({ raDeg: 15 * raHours, decDeg }, at(latitudeDeg), yearOfEvenings(NOVEMBER, at(latitudeDeg)))

describe('the months in which a thing is a sight of the evening', () => {
  it('are December to March for the sword of Orion over 52 degrees north, at every longitude', () => {
    expect(monthsAt(52, 5.6, -5.4).months).toEqual([1, 2, 3, 12])
    for (const longitudeDeg of [-179, -75, 13, 151]) {
      const place = at(52, longitudeDeg)
      const { months } = fixedSeason({ raDeg: 84, decDeg: -5.4 }, place, yearOfEvenings(NOVEMBER, place))
      expect(months).toEqual([1, 2, 3, 12])
    }
  })

  it('are the same by month, whatever month comes first', () => {
    for (let month = 1; month <= 12; month++) {
      const evenings = yearOfEvenings({ year: 2026, month }, at(52))
      expect(evenings.map((evening) => evening.month)).toHaveLength(12)
      expect(evenings[0]).toMatchObject({ year: 2026, month })
      expect(evenings[11]).toMatchObject({ year: month === 1 ? 2026 : 2027, month: month === 1 ? 12 : month - 1 })
      expect(fixedSeason({ raDeg: 84, decDeg: -5.4 }, at(52), evenings).months).toEqual([1, 2, 3, 12])
    }
  })

  it('are longer in the south, where the same thing climbs higher', () => {
    const { months, highestDeg } = monthsAt(-33, 5.6, -5.4)
    expect(months).toEqual(expect.arrayContaining([1, 2, 3, 12]))
    expect(months.length).toBeGreaterThan(4)
    expect(highestDeg).toBeCloseTo(62.4, 6)
  })

  it('are half a year apart for things that stand opposite each other', () => {
    const [one, other] = [monthsAt(45, 0, 20).months, monthsAt(45, 12, 20).months]
    expect(one).toContain(11)
    expect(one).not.toContain(5)
    expect(other).toContain(5)
    expect(other).not.toContain(11)
  })

  it('are all twelve near the pole, for what never sets', () => {
    expect(monthsAt(45, 2.5, 89)).toMatchObject({ code: 'months', neverSets: true })
    expect(monthsAt(45, 2.5, 89).months).toHaveLength(12)
    expect(monthsAt(-45, 2.5, -89).months).toHaveLength(12)
  })

  it('are none for what never rises, or stays low, and it says so', () => {
    expect(monthsAt(52, 13.4, -47.5)).toMatchObject({ code: 'never-rises', months: [] })
    expect(monthsAt(52, 13.4, -30)).toMatchObject({ code: 'stays-low', months: [] })
    expect(monthsAt(52, 13.4, -30).highestDeg).toBeCloseTo(8, 6)
    expect(monthsAt(-34, 13.4, -47.5).code).toBe('months')
  })

  it('leave out the white nights, and have no evening at all in a polar summer', () => {
    const { months } = monthsAt(65, 17, 60)
    for (const light of [5, 6, 7]) expect(months).not.toContain(light)
    const june = yearOfEvenings({ year: 2026, month: 6 }, at(75))[0]
    expect(june).toMatchObject({ dark: null, early: null })
  })

  it('begin an hour after dusk and end at 23 hours by the Sun, or at dusk where that is later', () => {
    const [december] = yearOfEvenings({ year: 2026, month: 12 }, at(52))
    const dusk = skyEvening(new Date('2026-12-15T12:00:00Z'), at(52)).nauticalDuskAt
    const late = ((december?.dark?.fromAt.getTime() ?? 0) - (dusk?.getTime() ?? 0)) / 60_000
    expect(Math.abs(late - 60)).toBeLessThan(3)
    expect(december?.dark?.toAt.toISOString()).toBe('2026-12-15T23:00:00.000Z')
    const [june] = yearOfEvenings({ year: 2026, month: 6 }, at(54))
    expect(june?.dark?.fromAt).toEqual(june?.dark?.toAt)
    expect(june?.dark?.toAt.toISOString()).toMatch(/T23:[1-3]\d/)
  })
})

describe('the season of what has no fixed place', () => {
  const place = at(52, 13)
  const evenings = yearOfEvenings(NOVEMBER, place)
  const season = (given: Parameters<typeof showObject>[0]) => seasonOf(showObject(given), place, evenings)

  it('is every month for the Moon, and for what is tied to no place', () => {
    expect(season({ kind: 'moon', body: 'moon', raDeg: null, decDeg: null })).toMatchObject({ code: 'moon' })
    expect(season({ kind: 'bare-eye', raDeg: null, decDeg: null }).months).toHaveLength(12)
  })

  // Jupiter is at opposition on 2027 February 10, Saturn on 2026 October 4 (from memory).
  it('is the evenings around its opposition for a planet, and for its moons', () => {
    const jupiter = season({ kind: 'planet', body: 'jupiter', raDeg: null, decDeg: null })
    expect(jupiter.code).toBe('months')
    expect(jupiter.months).toEqual(expect.arrayContaining([2, 3, 4]))
    expect(jupiter.months).not.toContain(9)
    expect(season({ kind: 'planet-moon', parent: 'jupiter', raDeg: null, decDeg: null })).toEqual(jupiter)
    expect(season({ kind: 'planet', body: 'saturn', raDeg: null, decDeg: null }).months).toContain(11)
  })

  it('is no month for Mercury, which keeps to the twilight', () => {
    expect(season({ kind: 'planet', body: 'mercury', raDeg: null, decDeg: null })).toMatchObject({
      code: 'not-soon',
      months: [],
    })
  })

  it('is not told for a comet, whose place holds for one night', () => {
    expect(season({ kind: 'comet' })).toMatchObject({ code: 'moves', months: [] })
  })

  it('is the month of its peak for a shower', () => {
    const shower = { peakSunDeg: 140, fromSunDeg: 115, toSunDeg: 151, zhr: 100, speedKmS: 59 }
    const found = season({ kind: 'meteor-shower', shower })
    expect(found).toMatchObject({ code: 'shower', months: [8] })
    expect(found.peakAt?.toISOString()).toMatch(/^2027-08-1[23]/)
  })
})

describe('the Sun along the year', () => {
  it('stands at 0 degrees at the March equinox of 2000, and a little less of J2000 in later years', () => {
    expect(wrap180(sunLongitudeDeg(new Date('2000-03-20T07:35:00Z')))).toBeCloseTo(0, 2)
    const late = sunLongitudeDeg(new Date('2026-03-20T14:46:00Z')) // the equinox of 2026, of date
    expect(wrap180(late)).toBeCloseTo(-0.366, 2)
  })

  it('comes to the same place once a year, in the order asked', () => {
    const first = showerPeak(262.2, new Date('2026-01-01T00:00:00Z'))
    expect(first.toISOString()).toMatch(/^2026-12-14/)
    expect(sunLongitudeDeg(first)).toBeCloseTo(262.2, 3)
    const next = showerPeak(262.2, new Date(first.getTime() + 86_400_000))
    expect((next.getTime() - first.getTime()) / 86_400_000).toBeCloseTo(365.25, 0)
  })
})
