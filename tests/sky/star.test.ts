import { Body, DefineStar, Equator, Horizon, MakeTime, Observer } from 'astronomy-engine'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { radians, separationDeg } from '../../server/sky/angles.ts'
import { type StarPlace, starHorizontal, starMeanOfDate, starOfDate, starVector } from '../../server/sky/star.ts'

const ARCSEC = 1 / 3600
const still = (raDeg: number, decDeg: number): StarPlace => ({
  raDeg,
  decDeg,
  pmRaMasYr: 0,
  pmDecMasYr: 0,
  parallaxMas: 0,
})

const anywhere = fc.record({
  raDeg: fc.double({ min: 0, max: 359.99, noNaN: true }),
  decDeg: fc.double({ min: -89.9, max: 89.9, noNaN: true }),
  latitudeDeg: fc.double({ min: -90, max: 90, noNaN: true }),
  longitudeDeg: fc.double({ min: -180, max: 180, noNaN: true }),
  at: fc.date({ min: new Date('2024-01-01'), max: new Date('2031-01-01'), noInvalidDate: true }),
})

describe('a star without motion of its own', () => {
  it('stands where the ephemeris library puts it, but for the turning Earth (0.35")', () => {
    fc.assert(
      fc.property(anywhere, ({ raDeg, decDeg, latitudeDeg, longitudeDeg, at }) => {
        const observer = new Observer(latitudeDeg, longitudeDeg, 0)
        DefineStar(Body.Star1, raDeg / 15, decDeg, 1e8)
        const time = MakeTime(at)
        const { ra, dec } = Equator(Body.Star1, time, observer, true, true)
        const theirs = Horizon(time, observer, ra, dec)
        const ours = starHorizontal(still(raDeg, decDeg), at, { latitudeDeg, longitudeDeg, heightM: 0 })
        const missDeg = separationDeg(ours.azimuthDeg, ours.altitudeDeg, theirs.azimuth, theirs.altitude)
        expect(missDeg).toBeLessThan(0.35 * ARCSEC)
      }),
      { numRuns: 200 },
    )
  })

  it('swings by aberration through 20.5" around its mean place, and not more than nutation adds', () => {
    const pole = still(270, 66.56)
    const missesArcsec = Array.from({ length: 12 }, (_, month) => {
      const at = new Date(Date.UTC(2027, month, 15))
      const [mean, seen] = [starMeanOfDate(pole, at), starOfDate(pole, at)]
      return separationDeg(mean.raDeg, mean.decDeg, seen.raDeg, seen.decDeg) / ARCSEC
    })
    expect(Math.min(...missesArcsec)).toBeGreaterThan(10)
    expect(Math.max(...missesArcsec)).toBeLessThan(20.6 + 20)
  })
})

describe('a star that moves', () => {
  it('drifts 61 Cygni by two and a half arcminutes in thirty years', () => {
    const star = { ...still(316.7248, 38.7494), pmRaMasYr: 4164, pmDecMasYr: 3250 }
    const [then, now] = [
      starVector(star, new Date('2000-01-01T12:00Z')),
      starVector(star, new Date('2030-01-01T12:00Z')),
    ]
    const movedDeg = Math.acos(then[0] * now[0] + then[1] * now[1] + then[2] * now[2]) * (180 / Math.PI)
    expect(movedDeg / ARCSEC).toBeCloseTo(30 * Math.hypot(4.164, 3.25), 0)
  })

  it('draws a yearly ellipse as wide as twice its parallax', () => {
    const near = { ...still(270, 66.56), parallaxMas: 750 }
    const placeAt = (month: number) => starVector(near, new Date(Date.UTC(2027, month, 4)))
    const [winter, summer] = [placeAt(0), placeAt(6)]
    const apart = Math.hypot(winter[0] - summer[0], winter[1] - summer[1], winter[2] - summer[2])
    expect(apart).toBeCloseTo(radians((2 * 0.75) / 3600), 7)
  })
})

it('keeps the pole star within its polar distance of the pole, over any northern place', () => {
  for (let hour = 0; hour < 24; hour++) {
    const at = new Date(Date.UTC(2026, 9, 1, hour))
    const { altitudeDeg } = starHorizontal(still(37.9546, 89.2641), at, {
      latitudeDeg: 52,
      longitudeDeg: 5,
      heightM: 0,
    })
    expect(Math.abs(altitudeDeg - 52)).toBeLessThan(0.65)
  }
})
