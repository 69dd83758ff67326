import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { clusterStars, magnitudeOfCount, starsBrighter } from '../../server/sight/cluster-stars.ts'
import { giantsBrighter } from '../../server/sight/globular.ts'
import { limitOf } from '../../server/sight/limit.ts'
import { lookOf } from '../../server/sight/look.ts'
import { cdFromMag } from '../../server/sight/luminance.ts'
import type { View } from '../../server/sight/optics.ts'
import { discDetail } from '../../server/sight/planet.ts'
import { moonMargin, moonsSeen } from '../../server/sight/planet-moons.ts'
import { chanceAndView } from '../../server/sight/sighting.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { conditionsWith, darkNight, moonNight, things, viewAt } from '../support/sight-data.ts'

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const ROUNDING = 1e-9
const pair = (min: number, max: number) =>
  fc.tuple(number(min, max), number(min, max)).map(([a, b]): [number, number] => [Math.min(a, b), Math.max(a, b)])
const limit = (view: View, mu = 19, altitudeDeg = 50) => limitOf(view, conditionsWith({}))(cdFromMag(mu), altitudeDeg)

const knownCluster = {
  kind: 'open-cluster',
  magnitude: 1.2,
  diameterArcmin: 110,
  brightestStarMag: 2.85,
  starCount: 100,
  starMags: [2.85, 3.62, 3.72, 3.87, 4.14, 4.3, 5.05, 5.44, 5.44, 5.66, 5.76, 6.17, 6.83, 6.83, 6.99],
} as const satisfies Subject
const m22 = { kind: 'globular', magnitude: 5.1, halfLightArcmin: 3.36, branchMag: 14.15 } as const satisfies Subject

const deepSky: fc.Arbitrary<Subject> = fc.constantFrom<Subject>(
  things.pleiades,
  things.m37,
  things.unmeasured,
  knownCluster,
  things.m13,
  m22,
  things.m31,
  things.heartedGalaxy,
  things.m51,
  things.m57,
  things.m42,
  things.m1,
  things.comet,
)

describe('of clusters, galaxies, clouds and comets a larger aperture never shows less', () => {
  it('at the same power', () => {
    fc.assert(
      fc.property(deepSky, pair(50, 500), number(15, 200), number(16, 22), (subject, [small, large], powerX, mu) => {
        const at = (apertureMm: number) =>
          chanceAndView(subject, moonNight, viewAt(apertureMm, powerX), conditionsWith({ zenithMag: mu })).view
        expect(at(small)).toBeLessThanOrEqual(at(large) + ROUNDING)
      }),
      { numRuns: 800 },
    )
  })

  it('at the same exit pupil, the field on the sky held', () => {
    fc.assert(
      fc.property(
        deepSky,
        pair(50, 500),
        number(0.7, 7),
        number(0.3, 4),
        number(16, 22),
        (subject, [small, large], exitPupilMm, trueFieldDeg, mu) => {
          const at = (apertureMm: number) => {
            const view = { ...viewAt(apertureMm, apertureMm / exitPupilMm), trueFieldDeg }
            return chanceAndView(subject, moonNight, view, conditionsWith({ zenithMag: mu })).view
          }
          expect(at(small)).toBeLessThanOrEqual(at(large) + ROUNDING)
        },
      ),
      { numRuns: 800 },
    )
  })

  it('and tells telescopes apart where the chance no longer does', () => {
    for (const [subject, power] of [
      [m22, 120],
      [things.m42, 45],
      [things.m37, 45],
      [things.m57, 120],
    ] as const) {
      const seen = [100, 150, 250].map((aperture) =>
        chanceAndView(subject, darkNight, viewAt(aperture, power), conditionsWith({})),
      )
      expect(seen[2]?.chance).toBeGreaterThan(0.95)
      expect(seen[2]?.view).toBeGreaterThan((seen[0]?.view ?? 1) + 0.08)
    }
  })
})

describe("Jupiter's moons", () => {
  const moons = things.jupiter.moons
  const disc = things.jupiter.diameterArcsec

  it('are seen before its stripes, in any tube at any power and in any air', () => {
    fc.assert(
      fc.property(number(40, 300), number(8, 200), number(1, 6), (apertureMm, powerX, seeingArcsec) => {
        const view = viewAt(apertureMm, powerX)
        const here = limitOf(view, conditionsWith({ seeingArcsec }))(cdFromMag(18), 40)
        if (discDetail(things.jupiter, view, here) > 0.1)
          expect(moonsSeen(moons, disc, view, here)).toBeGreaterThan(1.9)
      }),
      { numRuns: 1000 },
    )
    const spyglass = viewAt(50, 20)
    expect(moonsSeen(moons, disc, spyglass, limit(spyglass))).toBeGreaterThan(1.5)
    expect(discDetail(things.jupiter, spyglass, limit(spyglass))).toBe(0)
  })

  it('count as dots only beside the disc and clear of its glare', () => {
    const view = viewAt(100, 60)
    const margin = (offArcsec: number) =>
      moonMargin(
        { name: 'Io', magnitude: 5.3, offArcsec, state: 'beside', castsShadow: false },
        disc,
        view,
        limit(view),
      )
    expect(margin(23)).toBeLessThan(0)
    expect(margin(60)).toBeGreaterThan(1)
    expect(margin(100)).toBeGreaterThan(margin(40))
    expect(moonsSeen(moons, disc, view, limit(view))).toBeGreaterThan(2.5)
    expect(moonsSeen(moons, disc, view, limit(view))).toBeLessThan(3.05)
  })

  it('give a small telescope a row of dots where the disc alone is a dot', () => {
    const view = viewAt(60, 20)
    const shown = (subject: Subject) => chanceAndView(subject, darkNight, view, conditionsWith({})).view
    expect(shown(things.jupiter)).toBeGreaterThan(shown({ ...things.jupiter, moons: [] }) + 0.1)
  })
})

describe('the stars of a cluster', () => {
  const stars = clusterStars(knownCluster)

  it('are those that are there, down to V 7, and grow in number without a jump from there on', () => {
    expect(starsBrighter(stars, 4.2)).toBeCloseTo(5.4, 1)
    expect(starsBrighter(stars, 2)).toBe(0)
    expect(starsBrighter(stars, 7.001) - starsBrighter(stars, 6.999)).toBeLessThan(0.1)
    expect(starsBrighter(stars, 9)).toBeGreaterThan(20)
    expect(starsBrighter(stars, 14)).toBe(100)
  })

  it('never get fewer with a deeper limit, and the magnitude of a count has that count', () => {
    fc.assert(
      fc.property(pair(2, 14), number(1, 60), ([bright, faint], count) => {
        expect(starsBrighter(stars, bright)).toBeLessThanOrEqual(starsBrighter(stars, faint))
        expect(starsBrighter(stars, magnitudeOfCount(stars, count))).toBeCloseTo(count, 6)
      }),
      { numRuns: 500 },
    )
  })
})

describe('a comet', () => {
  it('of one light is never harder to see when it is more condensed', () => {
    fc.assert(
      fc.property(pair(0, 9), number(3, 11), number(1, 40), (degrees, magnitude, comaArcmin) => {
        const view = viewAt(100, 40)
        const at = (condensation: number) =>
          lookOf({ kind: 'comet', magnitude, comaArcmin, condensation }, view)(limit(view)).lightMag
        expect(at(degrees[0])).toBeLessThanOrEqual(at(degrees[1]) + 1e-6)
      }),
      { numRuns: 500 },
    )
  })

  it('without a middle is a patch of one brightness, a wholly condensed one is nearly a star', () => {
    const view = { ...viewAt(100, 40), trueFieldDeg: 3 }
    const margin = (subject: Subject) => lookOf(subject, view)(limit(view)).lightMag
    const even = margin({ kind: 'comet', magnitude: 8, comaArcmin: 10, condensation: 0 })
    expect(even).toBeCloseTo(margin({ kind: 'remnant', magnitude: 8, majorArcmin: 10, minorArcmin: 10 }), 1)
    const point = margin({ kind: 'comet', magnitude: 8, comaArcmin: 3, condensation: 9 })
    expect(margin({ kind: 'star', magnitude: 8, bv: null, isRed: false }) - point).toBeLessThan(0.3)
  })
})

describe('a core', () => {
  it('never makes a galaxy harder to see, and hides nothing of its form', () => {
    fc.assert(
      fc.property(number(50, 400), number(15, 150), number(16, 22), (apertureMm, powerX, mu) => {
        const at = (subject: Subject) =>
          chanceAndView(subject, darkNight, viewAt(apertureMm, powerX), conditionsWith({ zenithMag: mu }))
        expect(at(things.heartedGalaxy).chance).toBeGreaterThanOrEqual(at(things.m31).chance)
        expect(at(things.heartedGalaxy).view).toBeGreaterThanOrEqual(at(things.m31).view)
      }),
      { numRuns: 300 },
    )
  })
})

describe('a globular cluster', () => {
  it('is judged by its own branch where that is known: Omega Centauri is larger and farther than its light and width say', () => {
    const whole = { kind: 'globular', magnitude: 3.68, halfLightArcmin: 5 } as const
    const view = viewAt(150, 120)
    const shown = (subject: Subject) => chanceAndView(subject, darkNight, view, conditionsWith({})).view
    expect(giantsBrighter({ ...whole, branchMag: 14.51 }, 12)).toBeLessThan(giantsBrighter(whole, 12) / 2)
    expect(shown({ ...whole, branchMag: 14.51 })).toBeLessThan(shown(whole))
    expect(shown({ ...whole, branchMag: null })).toBe(shown(whole))
  })
})

describe('two white stars', () => {
  it('are a finer sight when they blaze, and never as fine as two colours', () => {
    const shown = (magnitudes: readonly [number, number], hasColourContrast = false) => {
      const pairOfStars = { kind: 'double', magnitudes, separationArcsec: 14, hasColourContrast } as const
      return chanceAndView(pairOfStars, darkNight, viewAt(102, 60), conditionsWith({})).view
    }
    expect(shown([0, 1.3])).toBeGreaterThan(shown([4, 5.3]) + 0.02)
    expect(shown([0, 1.3])).toBeLessThan(shown([4, 5.3], true))
  })
})
