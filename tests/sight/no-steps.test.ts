import { describe, expect, it } from 'vitest'
import type { Conditions } from '../../server/sight/conditions.ts'
import { moonlightCd, scatteringFunction } from '../../server/sight/moonlight.ts'
import { chanceAndView } from '../../server/sight/sighting.ts'
import type { SkyGeometry } from '../../server/sight/sky-brightness.ts'
import { contrastFloor, pointLux, sizeExponent, spreadSr } from '../../server/sight/threshold.ts'
import { twilightCd, zenithTwilightCd } from '../../server/sight/twilight.ts'
import { conditionsWith, darkNight, moonNight, things, viewAt } from '../support/sight-data.ts'

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

describe('chance and view of every thing follow without a jump', () => {
  type At = { readonly place?: SkyGeometry; readonly night?: Conditions; readonly powerX?: number }

  const SMALL = 1e-4
  const WORTH_A_LOOK = 0.004
  const HALVINGS = 24

  /** The largest change of chance or view of any thing that is left when the step across it is made very small. */
  function largestJump(from: number, to: number, at: (x: number) => At): number {
    const STEPS = 300
    const knots = Array.from({ length: STEPS + 1 }, (_, i) => from + ((to - from) * i) / STEPS)
    const jumps = Object.values(things).flatMap((thing) => {
      const seen = (x: number) => {
        const { place = darkNight, night = conditionsWith({}), powerX = 60 } = at(x)
        return chanceAndView(thing, place, viewAt(150, powerX), night)
      }
      const rows = knots.map(seen)
      const ofKey = (key: 'chance' | 'view') =>
        rows.slice(1).map((row, i) => {
          const isPlain = Math.abs(row[key] - (rows[i]?.[key] ?? 0)) < WORTH_A_LOOK
          return isPlain ? 0 : narrowed((x) => seen(x)[key], knots[i] ?? 0, knots[i + 1] ?? 0)
        })
      return [...ofKey('chance'), ...ofKey('view')]
    })
    return Math.max(...jumps)
  }

  /** What is left of a change between two places when each time the half with more of it is kept. */
  function narrowed(value: (x: number) => number, from: number, to: number): number {
    let [a, b, atA, atB] = [from, to, value(from), value(to)]
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (a + b) / 2
      const atMiddle = value(middle)
      if (Math.abs(atMiddle - atA) > Math.abs(atB - atMiddle)) [b, atB] = [middle, atMiddle]
      else [a, atA] = [middle, atMiddle]
    }
    return Math.abs(atB - atA)
  }

  const beside = (changes: Partial<NonNullable<SkyGeometry['moon']>>): At => ({
    place: {
      ...darkNight,
      moon: { altitudeDeg: 45, phaseAngleDeg: 40, distanceKm: 384_400, separationDeg: 60, ...changes },
    },
    night: conditionsWith({ zenithMag: 21, moonGazerShare: 0.3 }),
  })

  it('as the Sun goes down from day to night', () => {
    const at = (sunAltitudeDeg: number) => ({ place: { ...darkNight, sunAltitudeDeg, sunSeparationDeg: 100 } })
    expect(largestJump(20, -25, at)).toBeLessThan(SMALL)
  })

  it('as the Moon passes, rises from 2 degrees on and grows', () => {
    expect(largestJump(0, 180, (separationDeg) => beside({ separationDeg }))).toBeLessThan(SMALL)
    expect(largestJump(0, 180, (phaseAngleDeg) => beside({ phaseAngleDeg }))).toBeLessThan(SMALL)
    expect(largestJump(0.01, 90, (altitudeDeg) => beside({ altitudeDeg }))).toBeLessThan(SMALL)
  })

  it('as a thing climbs from 1 degree, and along the compass past a glow', () => {
    expect(largestJump(1, 90, (altitudeDeg) => ({ place: { ...moonNight, altitudeDeg } }))).toBeLessThan(SMALL)
    const night = conditionsWith({ glow: [{ fromDeg: 300, toDeg: 40, brighterMag: 2 }] })
    const low = { ...darkNight, altitudeDeg: 20 }
    expect(largestJump(0, 360, (azimuthDeg) => ({ place: { ...low, azimuthDeg }, night }))).toBeLessThan(SMALL)
  })

  it('with the power, the thin cloud, the haze and the width of the pupil', () => {
    expect(largestJump(10, 500, (powerX) => ({ powerX }))).toBeLessThan(SMALL)
    expect(largestJump(0, 1, (thinCloud) => ({ night: conditionsWith({ thinCloud }) }))).toBeLessThan(SMALL)
    expect(largestJump(0, 1, (extinctionMag) => ({ night: conditionsWith({ extinctionMag }) }))).toBeLessThan(SMALL)
    expect(largestJump(2, 8, (pupilMm) => ({ night: conditionsWith({ pupilMm }) }))).toBeLessThan(SMALL)
  })
})
