import { describe, expect, it } from 'vitest'
import { moonlightCd, scatteringFunction } from '../../server/sight/moonlight.ts'
import { contrastFloor, pointLux, sizeExponent, spreadSr } from '../../server/sight/threshold.ts'
import { twilightCd, zenithTwilightCd } from '../../server/sight/twilight.ts'

const STEP = 1e-7
const jump = (of: (x: number) => number, at: number) => of(at * (1 + STEP) + STEP) / of(at * (1 - STEP) - STEP) - 1

describe('nothing jumps', () => {
  it('in moonlight, ten degrees from the Moon and where the near branch takes over', () => {
    for (const separationDeg of [0.5, 8.4, 8.45, 10])
      expect(Math.abs(jump(scatteringFunction, separationDeg))).toBeLessThan(1e-4)
  })

  it('as the Moon rises: from nothing, by small parts of the night sky', () => {
    const at = (altitudeDeg: number) =>
      moonlightCd({ altitudeDeg, phaseAngleDeg: 5, distanceKm: 380_000, separationDeg: 60 }, 45, 0.25)
    expect(at(-0.01)).toBe(0)
    expect(at(0)).toBe(0)
    expect(at(0.01)).toBeLessThan(1e-5)
    expect(Math.abs(jump(at, 3))).toBeLessThan(1e-4)
  })

  it('in twilight at its knots', () => {
    for (const sunAltitudeDeg of [-12, -5, -3, 0, 3, 5, 15, 30])
      expect(Math.abs(jump(zenithTwilightCd, sunAltitudeDeg))).toBeLessThan(1e-4)
    expect(zenithTwilightCd(-23.999)).toBeLessThan(1e-7)
  })

  it("off the zenith as daylight takes over from Schaefer's twilight", () => {
    let before = twilightCd(-20, 40, 70, 0.25)
    for (let sun = -20; sun <= 90; sun += 0.01) {
      const now = twilightCd(sun, 40, 70, 0.25)
      expect(Math.abs(2.5 * Math.log10(now / before))).toBeLessThan(0.05)
      before = now
    }
  })

  it('in the thresholds where night vision gives way, and all of them go one way', () => {
    for (const b of [1e-3, 1e-2, 0.0216, 7.08e-2, 0.1, 0.193, 0.354, 3.4])
      for (const law of [spreadSr, contrastFloor, pointLux]) expect(Math.abs(jump(law, b))).toBeLessThan(1e-3)
    for (const b of [0.193, 3.4]) expect(Math.abs(jump(sizeExponent, b))).toBeLessThan(2e-3)
    for (let log = -5; log < 4; log += 0.01) {
      const [b, brighter] = [10 ** log, 10 ** (log + 0.01)]
      expect(pointLux(brighter)).toBeGreaterThan(pointLux(b) * (1 - 1e-6))
      expect(brighter * contrastFloor(brighter)).toBeGreaterThan(b * contrastFloor(b))
    }
  })
})
