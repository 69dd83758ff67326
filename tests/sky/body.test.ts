import { Body, Equator, Horizon, Observer } from 'astronomy-engine'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { separationDeg } from '../../server/sky/angles.ts'
import { BODY_KEYS, bodyLook, bodyLooks } from '../../server/sky/body.ts'

const LIBRARY: Readonly<Record<(typeof BODY_KEYS)[number], Body>> = {
  sun: Body.Sun,
  moon: Body.Moon,
  mercury: Body.Mercury,
  venus: Body.Venus,
  mars: Body.Mars,
  jupiter: Body.Jupiter,
  saturn: Body.Saturn,
  uranus: Body.Uranus,
  neptune: Body.Neptune,
}
const HERE = { latitudeDeg: 48.3, longitudeDeg: 11.2, heightM: 520 }

const anywhere = fc.record({
  latitudeDeg: fc.double({ min: -90, max: 90, noNaN: true }),
  longitudeDeg: fc.double({ min: -180, max: 180, noNaN: true }),
  at: fc.date({ min: new Date('2024-01-01'), max: new Date('2031-01-01'), noInvalidDate: true }),
})

describe('the look of a body', () => {
  it.each(BODY_KEYS)('%s stands where the ephemeris library puts it, but for the turning Earth (0.4")', (key) => {
    fc.assert(
      fc.property(anywhere, ({ at, latitudeDeg, longitudeDeg }) => {
        const observer = new Observer(latitudeDeg, longitudeDeg, 0)
        const { ra, dec, dist } = Equator(LIBRARY[key], at, observer, true, true)
        const theirs = Horizon(at, observer, ra, dec)
        const ours = bodyLook(key, at, { latitudeDeg, longitudeDeg, heightM: 0 })
        const missDeg = separationDeg(ours.azimuthDeg, ours.altitudeDeg, theirs.azimuth, theirs.altitude)
        expect(missDeg * 3600).toBeLessThan(0.4)
        expect(Math.abs(ours.distanceAu / dist - 1)).toBeLessThan(2e-4)
      }),
      { numRuns: 25 },
    )
  })

  it('stays within what a body can be', () => {
    fc.assert(
      fc.property(anywhere, ({ at, latitudeDeg, longitudeDeg }) => {
        for (const look of bodyLooks(BODY_KEYS, at, { latitudeDeg, longitudeDeg, heightM: 0 })) {
          for (const value of Object.values(look)) {
            if (typeof value === 'number') expect(value).not.toBeNaN()
          }
          expect(look.litFraction).toBeCloseTo((1 + Math.cos((look.phaseAngleDeg * Math.PI) / 180)) / 2, 12)
        }
      }),
      { numRuns: 50 },
    )
  })

  it('is the same one by one and together', () => {
    const at = new Date('2026-12-24T18:00:00Z')
    expect(bodyLooks(BODY_KEYS, at, HERE)).toEqual(BODY_KEYS.map((key) => bodyLook(key, at, HERE)))
  })

  it('has the Moon nearly full 180 degrees from the Sun, and thin beside it', () => {
    const full = bodyLook('moon', new Date('2026-03-03T11:38:00Z'), HERE)
    expect(full.litFraction).toBeGreaterThan(0.999)
    expect(full.elongationDeg).toBeGreaterThan(178)
    expect(full.magnitude).toBeLessThan(-12.5)
    const young = bodyLook('moon', new Date('2026-03-20T18:00:00Z'), HERE)
    expect(young.litFraction).toBeLessThan(0.05)
    expect(young.magnitude).toBeGreaterThan(-8)
  })

  it('keeps the disc of the Sun between 31.4 and 32.6 arcminutes', () => {
    for (let month = 0; month < 12; month++) {
      const sun = bodyLook('sun', new Date(Date.UTC(2026, month, 3, 12)), HERE)
      expect(sun.diameterArcsec / 60).toBeGreaterThan(31.4)
      expect(sun.diameterArcsec / 60).toBeLessThan(32.6)
      expect([sun.phaseAngleDeg, sun.litFraction, sun.elongationDeg]).toEqual([0, 1, 0])
    }
  })
})
