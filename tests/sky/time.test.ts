import { describe, expect, it } from 'vitest'
import { wrap180 } from '../../server/sky/angles.ts'
import { deltaTSec } from '../../server/sky/delta-t.ts'
import { greenwichSiderealDeg, instantOf, terrestrialDays } from '../../server/sky/engine.ts'
import { yearsSinceEpoch } from '../../server/sky/time.ts'

const daysSinceNoon2000 = (iso: string): number => (Date.parse(iso) - Date.parse('2000-01-01T12:00:00Z')) / 86_400_000

describe('the count of years', () => {
  it('is 0 at noon of 1 January 2000 and a hundred a century later, of 365.25 days each', () => {
    expect(yearsSinceEpoch(new Date('2000-01-01T12:00:00Z'))).toBe(0)
    expect(yearsSinceEpoch(new Date('2100-01-01T12:00:00Z'))).toBe(100)
    expect(yearsSinceEpoch(new Date('1900-01-01T12:00:00Z'))).toBeCloseTo(-36_524 / 365.25, 9)
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
  it('comes back after a sidereal day, good to the tenth of a second', () => {
    const SIDEREAL_DAY_MS = 86_164_091
    for (let month = 0; month < 12; month++) {
      const at = Date.UTC(2027, month, 3, 21)
      const [before, after] = [at, at + SIDEREAL_DAY_MS].map((ms) => greenwichSiderealDeg(instantOf(new Date(ms))))
      expect(Math.abs(wrap180((after ?? 0) - (before ?? 0))) * 240).toBeLessThan(0.1)
    }
  })
})
