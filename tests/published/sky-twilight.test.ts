import { describe, expect, it } from 'vitest'
import { skyEvening } from '../../server/sky/evening.ts'
import { sunTonight } from '../../server/tours/sun-tonight.ts'
import { A_SITE } from '../support/field-data.ts'

const minutesFrom = (found: Date | null, iso: string): number =>
  Math.abs((found?.getTime() ?? Number.NaN) - Date.parse(iso)) / 60_000

// A local newspaper's sky column for San Mateo, California, 20 May 2023 (Pacific daylight time is UTC - 7 h).
it('finds the dusk that a newspaper printed for San Mateo', () => {
  const sanMateo = { latitudeDeg: 37.563, longitudeDeg: -122.3255, heightM: 14 }
  const evening = skyEvening(new Date('2023-05-20T19:00:00Z'), sanMateo)
  expect(minutesFrom(evening.sunsetAt, '2023-05-20T20:17:00-07:00')).toBeLessThan(2)
  expect(minutesFrom(evening.civilDuskAt, '2023-05-20T20:45:00-07:00')).toBeLessThan(2)
  expect(minutesFrom(evening.nauticalDuskAt, '2023-05-20T21:22:00-07:00')).toBeLessThan(2)
  expect(minutesFrom(evening.astronomicalDuskAt, '2023-05-20T22:02:00-07:00')).toBeLessThan(2)
})

// A newspaper of Anchorage, January 2013 ("The sun returns to Barrow, Alaska"), after the U.S. Naval Observatory; Alaska
// standard time is UTC - 9 h. Where the town stands is from memory.
describe('the Sun of Utqiagvik, then Barrow, as a newspaper printed it', () => {
  const site = { latitudeDeg: 71.29, longitudeDeg: -156.79, heightM: 0 }
  const eveningOf = (date: string) => skyEvening(new Date(`${date}T12:00:00-09:00`), site)
  const sunOf = (date: string) =>
    sunTonight({ ...A_SITE, ...site }, eveningOf(date), new Date(`${date}T20:00:00-09:00`))

  it('sets for the last time on 18 November and comes back on 22 January', () => {
    expect(minutesFrom(eveningOf('2012-11-18').sunsetAt, '2012-11-18T13:31:00-09:00')).toBeLessThan(6)
    expect(minutesFrom(eveningOf('2013-01-22').sunriseAt, '2013-01-22T13:17:00-09:00')).toBeLessThan(6)
    expect(minutesFrom(eveningOf('2013-01-22').sunsetAt, '2013-01-22T14:01:00-09:00')).toBeLessThan(6)
    expect(minutesFrom(eveningOf('2013-01-23').sunriseAt, '2013-01-23T12:56:00-09:00')).toBeLessThan(4)
    expect(minutesFrom(eveningOf('2013-01-23').sunsetAt, '2013-01-23T14:24:00-09:00')).toBeLessThan(4)
  })

  it('does not rise for the 64 days between, and does not set from 11 May on', () => {
    const winter = Array.from({ length: 8 }, (_, k) =>
      new Date(Date.UTC(2012, 10, 19 + 9 * k)).toISOString().slice(0, 10),
    )
    expect(winter.at(-1)).toBe('2013-01-21')
    expect(new Set(winter.map(sunOf))).toEqual(new Set(['stays-down']))
    expect(['2013-05-11', '2013-06-21', '2013-07-31'].map(sunOf)).toEqual(['stays-up', 'stays-up', 'stays-up'])
    expect(minutesFrom(eveningOf('2013-08-01').sunsetAt, '2013-08-02T00:57:00-09:00')).toBeLessThan(6)
  })
})
