import { describe, expect, it } from 'vitest'
import { deltaTSec } from '../../server/sky/delta-t.ts'
import { instantOf, terrestrialDays } from '../../server/sky/engine.ts'
import { dateOfJulian, julianDate, meanSiderealDeg, siderealDeg, yearsSinceEpoch } from '../../server/sky/time.ts'

const daysSinceNoon2000 = (iso: string): number => (Date.parse(iso) - Date.parse('2000-01-01T12:00:00Z')) / 86_400_000

describe('the count of days', () => {
  it('is 2451545 at noon of 1 January 2000 and comes back to the same instant', () => {
    const noon = new Date('2000-01-01T12:00:00Z')
    expect(julianDate(noon)).toBe(2_451_545)
    expect(dateOfJulian(2_451_545)).toEqual(noon)
    const someNight = new Date('2026-08-12T21:34:56.789Z')
    expect(Math.abs(dateOfJulian(julianDate(someNight)).getTime() - someNight.getTime())).toBeLessThanOrEqual(1)
    expect(yearsSinceEpoch(new Date('2100-01-01T12:00:00Z'))).toBeCloseTo(100, 2)
  })
})

describe('terrestrial time minus UTC', () => {
  // IERS Bulletin C and the IERS list of leap seconds.
  it.each([
    ['1971-06-01T00:00:00Z', 42.184],
    ['1992-06-30T23:59:59Z', 58.184],
    ['1992-07-01T00:00:00Z', 59.184],
    ['2016-12-31T23:59:59Z', 68.184],
    ['2017-01-01T00:00:00Z', 69.184],
    ['2030-01-01T00:00:00Z', 69.184],
  ])('on %s is %d s, in the ephemeris too', (iso, expected) => {
    expect(deltaTSec(daysSinceNoon2000(iso))).toBeCloseTo(expected, 6)
    const engineSec = (terrestrialDays(instantOf(new Date(iso))) - daysSinceNoon2000(iso)) * 86_400
    expect(engineSec).toBeCloseTo(expected, 3)
  })
})

describe('sidereal time', () => {
  it('gains a full turn in a year and never strays 1.2 s from the mean one', () => {
    for (let month = 0; month < 12; month++) {
      const at = new Date(Date.UTC(2027, month, 3, 21))
      expect(Math.abs(siderealDeg(at) - meanSiderealDeg(at)) * 240).toBeLessThan(1.2)
    }
  })
})
