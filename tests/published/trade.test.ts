import { describe, expect, it } from 'vitest'
import { BODY_KEYS } from '../../server/sky/body.ts'
import { skyEvening } from '../../server/sky/evening.ts'
import type { Horizontal } from '../../server/sky/horizontal.ts'
import { alignmentPairs } from '../../server/tours/alignment.ts'
import { noonOf } from '../../server/tours/hours.ts'
import { looksPerHour, waitMin } from '../../server/tours/line.ts'
import { meanErrorFactor } from '../../server/tours/pointing-error.ts'
import { placeOf } from '../../server/tours/site.ts'
import { brightStars } from '../support/bright-stars.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'

// Common practice, no source.
describe('the line at one eyepiece', () => {
  it('moves safely at 60 looks an hour, a minute each', () => {
    expect(looksPerHour(60)).toBe(60)
    expect(waitMin(60, 60)).toBe(60)
  })

  it('never moves faster than 100 looks an hour, 36 seconds each', () => {
    expect(looksPerHour(36)).toBe(100)
    for (const cycleSec of [35, 20, 1]) expect(looksPerHour(cycleSec)).toBe(100)
    expect(looksPerHour(37)).toBeLessThan(100)
  })
})

/** tr P from the root mean square over the whole sky, sqrt(2/3 tr P). */
const attitudeVariance = (...stars: readonly [Horizontal, Horizontal]): number =>
  1.5 * meanErrorFactor(...stars, []) ** 2

// Common practice, no source.
describe('the two alignment stars at dusk', () => {
  const stars = brightStars()

  it.each([
    ['in the north', demoNight],
    ['in the south', southernNight],
  ])('stand 20 to 65 degrees high and at least 90 degrees of azimuth apart %s', (_where, night) => {
    const { nauticalDuskAt } = skyEvening(noonOf(night.date, night.site.zone), placeOf(night.site))
    if (nauticalDuskAt === null) throw new Error('There is no dusk')
    const [best] = alignmentPairs({ stars, bodies: [], night, at: nauticalDuskAt, targets: [] })
    if (best === undefined) throw new Error('There is no pair')
    expect(best.azimuthApartDeg).toBeGreaterThanOrEqual(90)
    for (const { key, magnitude, direction } of best.stars) {
      expect(direction.altitudeDeg).toBeGreaterThanOrEqual(20)
      expect(direction.altitudeDeg).toBeLessThanOrEqual(65)
      expect(magnitude).toBeLessThanOrEqual(2)
      expect(BODY_KEYS).not.toContain(key)
    }
  })
})

// Covariance form of Shuster & Oh, J. Guid. Control 4 (1981), 70, from memory; closed form 1/2 + 2/sin^2 derived from it by hand.
describe('the pointing error after two stars', () => {
  const star = (azimuthDeg: number, altitudeDeg: number) => ({ azimuthDeg, altitudeDeg })

  it.each([
    [5, 263.8, 13.26],
    [10, 66.83, 6.67],
    [20, 17.6, 3.43],
    [30, 8.5, 2.38],
    [45, 4.5, 1.73],
    [60, 3.167, 1.45],
    [90, 2.5, 1.29],
    [120, 3.167, 1.45],
    [150, 8.5, 2.38],
    [170, 66.83, 6.67],
  ])('has the variance of the closed form for stars %i degrees apart', (apartDeg, variance, overTheSky) => {
    const reckoned = attitudeVariance(star(0, 0), star(apartDeg, 0))
    expect(Math.abs(reckoned / variance - 1)).toBeLessThan(2e-4)
    expect(reckoned).toBeCloseTo(0.5 + 2 / Math.sin((apartDeg * Math.PI) / 180) ** 2, 6)
    expect(attitudeVariance(star(200, 0), star(200, apartDeg))).toBeCloseTo(reckoned, 6)
    expect(meanErrorFactor(star(0, 0), star(apartDeg, 0), [])).toBeCloseTo(overTheSky, 2)
  })

  it.each([
    [135, 60, 1.136],
    [300, 40, 1.5],
  ])('leaves the target at azimuth %i, %i degrees high, %f times the centring error', (azimuth, height, error) => {
    expect(meanErrorFactor(star(90, 30), star(180, 45), [star(azimuth, height)])).toBeCloseTo(error, 3)
  })
})
