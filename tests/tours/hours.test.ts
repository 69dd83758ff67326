import fc from 'fast-check'
import { DateTime } from 'luxon'
import { describe, expect, it } from 'vitest'
import {
  eveningDate,
  halfHourStarts,
  instantOf,
  isDay,
  isZone,
  middleOf,
  nightHours,
  noonOf,
  quarterHours,
  wallClock,
} from '../../server/tours/hours.ts'
import { peopleAt } from '../../server/tours/visitors.ts'
import { demoNight } from '../support/demo-night.ts'

const zurich = { date: '2026-12-17', opens: '18:00', closes: '21:00', site: { zone: 'Europe/Zurich' } }

describe('the hours of a night', () => {
  it('are instants by the clocks of the site', () => {
    expect(nightHours(zurich).opensAt.toISOString()).toBe('2026-12-17T17:00:00.000Z')
    expect(noonOf('2027-07-10', 'Australia/Sydney').toISOString()).toBe('2027-07-10T02:00:00.000Z')
  })

  it('belong to the next morning before noon when the night opens in the evening', () => {
    const late = { ...zurich, opens: '22:00', closes: '01:30' }
    expect(nightHours(late).closesAt.toISOString()).toBe('2026-12-18T00:30:00.000Z')
    expect(instantOf({ ...zurich, opens: '04:00' }, '05:00').toISOString()).toBe('2026-12-17T04:00:00.000Z')
  })

  it('follow the clock change within the night', () => {
    const spring = { date: '2027-03-27', opens: '22:00', closes: '04:00', site: { zone: 'Europe/Zurich' } }
    const { opensAt, closesAt } = nightHours(spring)
    expect((closesAt.getTime() - opensAt.getTime()) / 3_600_000).toBe(5)
  })

  it('fall into quarter hours by the clocks, the first one shorter when the night opens between', () => {
    const borders = quarterHours({ ...zurich, opens: '18:07', closes: '18:50' })
    expect(borders.map((at) => wallClock(at, 'Europe/Zurich'))).toEqual(['18:07', '18:15', '18:30', '18:45', '18:50'])
    expect(quarterHours(zurich)).toHaveLength(13)
  })

  it('fall into quarters of the local clock where the zone is 45 minutes off', () => {
    const kathmandu = { ...zurich, site: { zone: 'Asia/Kathmandu' } }
    expect(quarterHours(kathmandu).map((at) => wallClock(at, 'Asia/Kathmandu'))).toContain('18:15')
  })
})

describe('the middle of the public hours', () => {
  it('is rounded down to the half hour by the clocks of the site', () => {
    const middle = (opens: string, closes: string, zone: string) =>
      wallClock(middleOf({ ...zurich, opens, closes, site: { zone } }), zone)
    expect(middle('18:00', '21:00', 'Europe/Zurich')).toBe('19:30')
    expect(middle('18:10', '21:45', 'Europe/Zurich')).toBe('19:30')
    expect(middle('22:00', '02:15', 'Europe/Zurich')).toBe('00:00')
    expect(middle('18:00', '21:15', 'Asia/Kathmandu')).toBe('19:30')
  })
})

describe('a night that opens after midnight', () => {
  it('has the date of its opening and belongs to the sky that began at the noon before', () => {
    expect(nightHours({ ...zurich, opens: '00:30', closes: '03:00' }).opensAt.toISOString()).toBe(
      '2026-12-16T23:30:00.000Z',
    )
    expect(eveningDate({ date: '2026-12-17', opens: '00:30', closes: '03:00' })).toBe('2026-12-16')
    expect(eveningDate({ date: '2027-01-01', opens: '11:00', closes: '12:00' })).toBe('2026-12-31')
  })

  it('is none when it opens in the evening, or stays open from the morning over noon into the evening', () => {
    expect(eveningDate(zurich)).toBe('2026-12-17')
    expect(eveningDate({ ...zurich, opens: '22:00', closes: '03:00' })).toBe('2026-12-17')
    expect(eveningDate({ ...zurich, opens: '10:00', closes: '18:00' })).toBe('2026-12-17')
  })

  it('is shorter or longer by the hour of the clock change', () => {
    const hours = (date: string) => {
      const { opensAt, closesAt } = nightHours({ ...zurich, date, opens: '00:30', closes: '04:00' })
      return (closesAt.getTime() - opensAt.getTime()) / 3_600_000
    }
    expect([hours('2027-03-28'), hours('2026-10-25'), hours('2026-10-26')]).toEqual([2.5, 4.5, 3.5])
  })
})

describe('half hours of the public hours', () => {
  const spring = { date: '2027-03-27', opens: '22:00', closes: '03:30', site: { zone: 'Europe/Berlin' } }
  const santiago = { date: '2027-09-04', opens: '21:00', closes: '01:30', site: { zone: 'America/Santiago' } }
  const autumn = { ...spring, date: '2026-10-24' }

  it('leave out those that the clock change skips, at two or at midnight', () => {
    expect(halfHourStarts(spring).slice(6)).toEqual(['01:00', '01:30', '03:00'])
    expect(halfHourStarts(santiago).slice(4)).toEqual(['23:00', '23:30', '01:00'])
  })

  it('are there once when they come twice, and stand for the first of the two', () => {
    expect(halfHourStarts(autumn).slice(6)).toEqual(['01:00', '01:30', '02:00', '02:30', '03:00'])
    expect(instantOf(autumn, '02:30').toISOString()).toBe('2026-10-25T00:30:00.000Z')
  })

  it('that come twice hold the people of the last of them until the clocks go on', () => {
    const visitors = halfHourStarts(autumn).map((startsAt, i) => ({ startsAt, adults: i, children: 0, seated: 0 }))
    const night = { ...demoNight, ...autumn, site: { ...demoNight.site, ...autumn.site }, visitors }
    const adultsAt = (utc: string) => peopleAt(night, new Date(`2026-10-25T${utc}:00Z`)).adults
    expect(['00:10', '00:40', '01:10', '01:40', '02:10'].map(adultsAt)).toEqual([8, 9, 9, 9, 10])
  })

  it('cover the public hours without a hole, each once, on any night of the year', () => {
    const zones = ['Europe/Berlin', 'America/Santiago', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'Pacific/Chatham']
    const minute = fc
      .integer({ min: 0, max: 1439 })
      .map((m) => DateTime.utc(2026).plus({ minutes: m }).toFormat('HH:mm'))
    const date = fc
      .integer({ min: 0, max: 730 })
      .map((days) => DateTime.utc(2026).plus({ days }).toFormat('yyyy-MM-dd'))
    const nights = fc.record({ date, opens: minute, closes: minute, zone: fc.constantFrom(...zones) })
    fc.assert(
      fc.property(nights, ({ zone, ...hours }) => {
        const night = { ...hours, site: { zone } }
        const { opensAt, closesAt } = nightHours(night)
        const lengthMin = (closesAt.getTime() - opensAt.getTime()) / 60_000
        fc.pre(lengthMin > 0 && lengthMin <= 720)
        const starts = halfHourStarts(night)
        const instants = starts.map((start) => instantOf(night, start).getTime())
        const gaps = [...instants, closesAt.getTime()].map(
          (ms, i) => (ms - (instants[i - 1] ?? opensAt.getTime())) / 60_000,
        )
        expect(starts.length).toBeLessThanOrEqual(24)
        expect(new Set(starts).size).toBe(starts.length)
        expect(gaps.slice(1).every((gap) => gap > 0 && gap <= 90)).toBe(true)
        expect(gaps[0]).toBeLessThan(30)
      }),
      { numRuns: 150 },
    )
  })
})

describe('a day', () => {
  it('is one of the calendar', () => {
    expect([isDay('2028-02-29'), isDay('2027-02-29'), isDay('2027-2-1'), isDay('')]).toEqual([
      true,
      false,
      false,
      false,
    ])
  })
})

describe('a zone', () => {
  it('is one that the time zone data know', () => {
    expect(isZone('Europe/Zurich')).toBe(true)
    expect(isZone('Europe/Nowhere')).toBe(false)
  })
})
