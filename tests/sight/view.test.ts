import { describe, expect, it } from 'vitest'
import type { View } from '../../server/sight/optics.ts'
import { chanceAndView } from '../../server/sight/sighting.ts'
import type { SkyGeometry } from '../../server/sight/sky-brightness.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { conditionsWith, darkNight, moonNight, things, viewAt } from '../support/sight-data.ts'

const THERE = 0.3
const SHAPE = 0.6
const DETAIL = 0.85
const town = conditionsWith({ seeingArcsec: 2 })
const shown = (subject: Subject, view: View, geometry: SkyGeometry = moonNight) =>
  chanceAndView(subject, geometry, view, town).view

describe('how things show to a newcomer', () => {
  it('Saturn: a gasp in 150 mm at 150 times, less in 72 mm, a dot at 15 times', () => {
    expect(shown(things.saturn, viewAt(150, 150))).toBeGreaterThan(0.95)
    const small = shown(things.saturn, viewAt(72, 72))
    expect(small).toBeGreaterThan(SHAPE)
    expect(small).toBeLessThan(DETAIL)
    expect(shown(things.saturn, viewAt(72, 15))).toBeLessThan(0.4)
  })

  it('Saturn: worse low in the murk, and with its ring edge-on', () => {
    const view = viewAt(150, 150)
    expect(shown(things.saturn, view, { ...darkNight, altitudeDeg: 12 })).toBeLessThan(shown(things.saturn, view) - 0.1)
    expect(shown({ ...things.saturn, ringMinorArcsec: 0.5 }, view)).toBeLessThan(shown(things.saturn, view) - 0.1)
  })

  it('Venus: a sickle has form, a nearly full disc is a glare', () => {
    const view = viewAt(102, 90)
    expect(shown(things.venus, view)).toBeGreaterThan(0.55)
    expect(shown({ ...things.venus, litFraction: 0.95, diameterArcsec: 11 }, view)).toBeLessThan(0.35)
  })

  it('the Andromeda galaxy: there, from a town, in any tube', () => {
    for (const view of [viewAt(72, 20), viewAt(102, 25), viewAt(250, 48)]) {
      expect(shown(things.m31, view)).toBeGreaterThan(0.2)
      expect(shown(things.m31, view)).toBeLessThan(0.4)
    }
  })

  it('the Pleiades: a gasp when framed, not through a keyhole', () => {
    expect(shown(things.pleiades, viewAt(72, 16.6))).toBeGreaterThan(0.95)
    expect(shown(things.pleiades, viewAt(250, 100))).toBeLessThan(SHAPE + 0.05)
  })

  it("Orion's cloud: towards detail in the larger tubes", () => {
    expect(shown(things.m42, viewAt(150, 38), darkNight)).toBeGreaterThan(0.65)
    expect(shown(things.m42, viewAt(250, 48), darkNight)).toBeGreaterThan(shown(things.m42, viewAt(72, 20), darkNight))
  })

  it('M13: shape to detail in 250 mm, only there in 72', () => {
    const large = shown(things.m13, viewAt(250, 125))
    expect(large).toBeGreaterThan(SHAPE)
    expect(large).toBeLessThan(DETAIL)
    expect(shown(things.m13, viewAt(72, 43))).toBeLessThan(THERE + 0.1)
  })

  it('M57: a ring in 250 mm, there in 72', () => {
    expect(shown(things.m57, viewAt(250, 125))).toBeGreaterThan(SHAPE - 0.02)
    expect(shown(things.m57, viewAt(72, 43))).toBeLessThan(THERE + 0.05)
  })

  it('Albireo: detail or better at a moderate power, two white dots give less', () => {
    expect(shown(things.albireo, viewAt(102, 40))).toBeGreaterThan(DETAIL)
    expect(shown({ ...things.albireo, hasColourContrast: false }, viewAt(102, 40))).toBeLessThan(DETAIL)
  })

  it('the Moon: a gasp whole and close by its shadows, duller when full', () => {
    expect(shown(things.halfMoon, viewAt(102, 40))).toBeGreaterThan(0.95)
    expect(shown(things.halfMoon, viewAt(150, 150))).toBeGreaterThan(0.95)
    expect(shown(things.fullMoon, viewAt(150, 150))).toBeLessThan(0.7)
    expect(shown(things.fullMoon, viewAt(102, 40))).toBeGreaterThan(shown(things.fullMoon, viewAt(150, 150)))
  })
})

describe('the chance by kind', () => {
  const chance = (subject: Subject, view: View, geometry = darkNight) =>
    chanceAndView(subject, geometry, view, town).chance

  it('of the Moon is certain whenever it is up, by day too, and none when it is down', () => {
    const noon = { ...darkNight, sunAltitudeDeg: 40, sunSeparationDeg: 90 }
    for (const geometry of [darkNight, noon, { ...darkNight, altitudeDeg: 2 }])
      for (const moon of [things.halfMoon, things.fullMoon])
        expect(chance(moon, viewAt(102, 40), geometry)).toBeGreaterThan(0.99)
    expect(chance(things.halfMoon, viewAt(102, 40), { ...darkNight, altitudeDeg: -1 })).toBe(0)
  })

  it('of Venus by day is good, of M57 by day there is none', () => {
    const noon = { ...darkNight, sunAltitudeDeg: 30, sunSeparationDeg: 40 }
    expect(chance(things.venus, viewAt(102, 90), noon)).toBeGreaterThan(0.95)
    expect(chance(things.m57, viewAt(250, 90), noon)).toBeLessThan(0.001)
  })

  it('of a close pair needs power, aperture and steady air', () => {
    const split = (apertureMm: number, powerX: number, seeingArcsec: number) =>
      chanceAndView(things.castor, darkNight, viewAt(apertureMm, powerX), conditionsWith({ seeingArcsec })).chance
    expect(split(150, 120, 1.5)).toBeGreaterThan(0.95)
    expect(split(150, 20, 1.5)).toBeLessThan(0.2)
    expect(split(150, 120, 8)).toBeLessThan(split(150, 120, 2))
    expect(split(40, 120, 1.5)).toBeLessThan(split(150, 120, 1.5))
  })

  it('of a pattern of stars needs a field that holds it', () => {
    expect(chance(things.coathanger, viewAt(72, 17))).toBeGreaterThan(0.95)
    expect(chance(things.coathanger, viewAt(72, 72))).toBeLessThan(0.3)
  })

  it('of a cluster with no star in reach rests on its glow', () => {
    const dim = { kind: 'open-cluster', magnitude: 6, diameterArcmin: 4, brightestStarMag: 13, starCount: 200 } as const
    expect(chance(dim, viewAt(102, 60))).toBeGreaterThan(0.9)
    expect(shown(dim, viewAt(102, 60))).toBeLessThan(0.35)
  })

  it('falls with the share of people who have just looked at a full Moon', () => {
    const moon = { altitudeDeg: 45, phaseAngleDeg: 2, distanceKm: 384_400, separationDeg: 90 }
    const ofShare = (moonGazerShare: number) =>
      chanceAndView(things.m57, { ...darkNight, moon }, viewAt(250, 90), conditionsWith({ moonGazerShare })).chance
    expect(ofShare(1)).toBeLessThan(ofShare(0.5))
    expect(ofShare(0.5)).toBeCloseTo((ofShare(0) + ofShare(1)) / 2, 9)
  })
})
