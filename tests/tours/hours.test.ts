import { describe, expect, it } from 'vitest'
import { instantOf, isZone, nightHours, noonOf, quarterHours, wallClock } from '../../server/tours/hours.ts'

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

describe('a zone', () => {
  it('is one that the time zone data know', () => {
    expect(isZone('Europe/Zurich')).toBe(true)
    expect(isZone('Europe/Nowhere')).toBe(false)
  })
})
