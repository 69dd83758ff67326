import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { airmassKastenYoung, airmassPickering } from '../../server/sky/airmass.ts'
import {
  apparentAltitudeDeg,
  refractionDeg,
  refractionFromApparentDeg,
  trueAltitudeDeg,
} from '../../server/sky/refraction.ts'

const altitude = fc.double({ min: -90, max: 90, noNaN: true })

describe('refraction', () => {
  it('lifts everything a little and never turns the order of two things', () => {
    fc.assert(
      fc.property(altitude, altitude, (a, b) => {
        expect(refractionDeg(a)).toBeGreaterThanOrEqual(0)
        expect(refractionDeg(a)).toBeLessThan(0.66)
        const [low, high] = a < b ? [a, b] : [b, a]
        expect(apparentAltitudeDeg(low)).toBeLessThanOrEqual(apparentAltitudeDeg(high))
      }),
    )
  })

  it('is undone by its inverse, below the horizon too', () => {
    fc.assert(
      fc.property(altitude, (trueDeg) => {
        expect(trueAltitudeDeg(apparentAltitudeDeg(trueDeg))).toBeCloseTo(trueDeg, 6)
      }),
    )
  })

  it('is nothing overhead and nothing underfoot', () => {
    expect(refractionDeg(90)).toBe(0)
    expect(refractionDeg(-90)).toBeCloseTo(0, 9)
    expect(refractionFromApparentDeg(90)).toBe(0)
  })

  it('has no step where it begins to fade below the horizon', () => {
    expect(refractionDeg(-1 - 1e-9)).toBeCloseTo(refractionDeg(-1 + 1e-9), 7)
  })
})

describe('airmass', () => {
  it.each([airmassPickering, airmassKastenYoung])(
    'is at least 1, grows downward and ends at the horizon',
    (airmass) => {
      fc.assert(
        fc.property(altitude, altitude, (a, b) => {
          const [low, high] = a < b ? [a, b] : [b, a]
          expect(airmass(high)).toBeGreaterThanOrEqual(1)
          expect(airmass(low)).toBeGreaterThanOrEqual(airmass(high) - 1e-9)
          expect(airmass(low)).toBeLessThan(39)
        }),
      )
      expect(airmass(-30)).toBe(airmass(0))
    },
  )

  it('is the same by both laws above 5 degrees, to 0.3 %', () => {
    for (let high = 5; high <= 90; high++) {
      expect(Math.abs(airmassPickering(high) / airmassKastenYoung(high) - 1)).toBeLessThan(0.003)
    }
  })
})
