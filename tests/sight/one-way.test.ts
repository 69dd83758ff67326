import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { airAt } from '../../server/sight/limit.ts'
import { chanceAndView } from '../../server/sight/sighting.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { conditionsWith, darkNight, moonNight, things, viewAt } from '../support/sight-data.ts'

const faint: fc.Arbitrary<Subject> = fc.constantFrom<Subject>(
  things.star,
  things.m37,
  things.unmeasured,
  things.m13,
  things.m31,
  things.m51,
  things.m57,
  things.m42,
  things.m1,
  things.neptune,
)
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const ROUNDING = 1e-6
const chance = (...asked: Parameters<typeof chanceAndView>) => chanceAndView(...asked).chance

/** Both ends of a range, the worse one first. */
const pair = (min: number, max: number) =>
  fc.tuple(number(min, max), number(min, max)).map(([a, b]): [number, number] => [Math.min(a, b), Math.max(a, b)])

describe('a faint thing is never seen better', () => {
  it('under a brighter sky', () => {
    fc.assert(
      fc.property(faint, pair(15, 22), number(20, 200), (subject, [bright, dark], powerX) => {
        const at = (zenithMag: number) => chance(subject, darkNight, viewAt(150, powerX), conditionsWith({ zenithMag }))
        expect(at(bright)).toBeLessThanOrEqual(at(dark) + ROUNDING)
      }),
      { numRuns: 800 },
    )
  })

  it('in deeper twilight turned brighter', () => {
    fc.assert(
      fc.property(faint, pair(-20, 20), (subject, [low, high]) => {
        const at = (sunAltitudeDeg: number) =>
          chance(subject, { ...darkNight, sunAltitudeDeg }, viewAt(150, 50), conditionsWith({}))
        expect(at(high)).toBeLessThanOrEqual(at(low) + ROUNDING)
      }),
      { numRuns: 800 },
    )
  })

  it('at a lower altitude', () => {
    fc.assert(
      fc.property(faint, pair(0.5, 90), number(20, 200), (subject, [low, high], powerX) => {
        const at = (altitudeDeg: number) =>
          chance(subject, { ...moonNight, altitudeDeg }, viewAt(150, powerX), conditionsWith({}))
        expect(at(low)).toBeLessThanOrEqual(at(high) + ROUNDING)
      }),
      { numRuns: 800 },
    )
  })

  it('with a fuller, a higher or a nearer Moon', () => {
    fc.assert(
      fc.property(faint, pair(0, 180), pair(0, 90), pair(330_000, 420_000), (subject, phases, heights, distances) => {
        const at = (phaseAngleDeg: number, altitudeDeg: number, distanceKm: number) => {
          const moon = { altitudeDeg, phaseAngleDeg, distanceKm, separationDeg: 60 }
          const conditions = conditionsWith({ zenithMag: 21, moonGazerShare: 0.3 })
          return chance(subject, { ...darkNight, moon }, viewAt(150, 50), conditions)
        }
        const most = at(phases[0], heights[1], distances[0])
        expect(most).toBeLessThanOrEqual(at(phases[1], heights[0], distances[1]) + ROUNDING)
        expect(most).toBeLessThanOrEqual(chance(subject, darkNight, viewAt(150, 50), conditionsWith({ zenithMag: 21 })))
      }),
      { numRuns: 800 },
    )
  })

  it('in a smaller aperture at the same power', () => {
    fc.assert(
      fc.property(faint, pair(50, 500), number(20, 200), number(16, 22), (subject, [small, large], powerX, mu) => {
        const at = (apertureMm: number) =>
          chance(subject, moonNight, viewAt(apertureMm, powerX), conditionsWith({ zenithMag: mu }))
        expect(at(small)).toBeLessThanOrEqual(at(large) + ROUNDING)
      }),
      { numRuns: 800 },
    )
  })

  it('through thin cloud, by a harder public, or under a lamp', () => {
    fc.assert(
      fc.property(faint, number(0, 1), number(2.4, 5), (subject, thinCloud, noviceFactor) => {
        const at = (changes: Parameters<typeof conditionsWith>[0]) =>
          chance(subject, darkNight, viewAt(150, 50), conditionsWith(changes))
        expect(at({ thinCloud })).toBeLessThanOrEqual(at({}))
        expect(at({ noviceFactor: 5 })).toBeLessThanOrEqual(at({ noviceFactor }) + ROUNDING)
        expect(at({ streetLight: true, zenithMag: 22 })).toBeLessThanOrEqual(at({ zenithMag: 22 }) + ROUNDING)
      }),
      { numRuns: 500 },
    )
  })
})

describe('a star', () => {
  const star = fc.record({ magnitude: number(6, 13), altitudeDeg: number(5, 90), seeingArcsec: number(0.5, 6) })
  /** The power at which the air blows its image up to an apparent 15 minutes of arc. */
  const blownUpX = (altitudeDeg: number, seeingArcsec: number) =>
    450 / airAt(altitudeDeg, conditionsWith({ seeingArcsec })).blurArcsec

  it('never loses by more power until its image is blown up by the air, and never gains once the sky is black too', () => {
    fc.assert(
      fc.property(star, number(40, 400), pair(0, 1), number(17, 22), (given, apertureMm, [less, more], zenithMag) => {
        const { magnitude, altitudeDeg, seeingArcsec } = given
        const last = blownUpX(altitudeDeg, seeingArcsec)
        const at = (powerX: number) =>
          chance(
            { kind: 'star', magnitude, bv: null, isRed: false },
            { ...darkNight, altitudeDeg },
            viewAt(apertureMm, powerX),
            conditionsWith({ zenithMag, seeingArcsec }),
          )
        const [low, high] = [5 + less * (last - 5), 5 + more * (last - 5)]
        expect(at(low)).toBeLessThanOrEqual(at(high) + ROUNDING)
        const black = Math.max(last, apertureMm / 0.05)
        expect(at(black * (1 + more))).toBeLessThanOrEqual(at(black * (1 + less)) + ROUNDING)
      }),
      { numRuns: 1000 },
    )
  })
})
