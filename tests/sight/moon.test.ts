import { describe, expect, it } from 'vitest'
import { readMoonFeatures } from '../../db/catalogue/moon-features.ts'
import { featuresTonight, RELIEF_SUN_DEG, reliefOf } from '../../server/sight/moon-features.ts'
import { chanceAndView, sighting } from '../../server/sight/sighting.ts'
import type { MoonSubject } from '../../server/sight/subject.ts'
import { moonFace } from '../../server/sky/moon-face.ts'
import { conditionsWith, darkNight, things, viewAt } from '../support/sight-data.ts'

const list = readMoonFeatures()
const tonight = (at: string) => featuresTonight(moonFace(new Date(at)), list)
const moonOn = (at: string): MoonSubject => {
  const { litFraction, phaseAngleDeg } = moonFace(new Date(at))
  return { kind: 'moon', litFraction, phaseAngleDeg, diameterArcmin: 31, features: tonight(at) }
}
const close = viewAt(150, 120)
const shown = (moon: MoonSubject) => chanceAndView(moon, darkNight, close, conditionsWith({ seeingArcsec: 2 })).view
const HALF = '2026-12-17T19:00:00Z'
const FULL = '2026-12-24T00:00:00Z'
const THIN = '2026-12-12T17:00:00Z'

describe('what is lit well on the Moon', () => {
  it('at first quarter lies along the middle: the Apennines or the row of Ptolemaeus, and nothing of the east limb in relief', () => {
    const names = tonight(HALF).map(({ name }) => name)
    expect(names).toContain('Straight Wall')
    expect(names).toContain('Alphonsus')
    expect(names).not.toContain('Langrenus')
    expect(names).not.toContain('Gassendi')
  })

  it('comes best first, under the Sun that each kind wants', () => {
    const worths = tonight(HALF).map(({ worth }) => worth)
    expect(worths).toEqual(worths.toSorted((a, b) => b - a))
    for (const { name, worth, sunAltitudeDeg, bestFromDeg, bestToDeg } of tonight(HALF)) {
      expect(sunAltitudeDeg, name).toBeGreaterThan(bestFromDeg / 2)
      if (worth > 0.95) expect(sunAltitudeDeg, name).toBeLessThan(1.05 * bestToDeg)
    }
  })

  it('is relief nearly every evening of a lunation but at new and full Moon', () => {
    const days = Array.from({ length: 30 }, (_, day) => new Date(Date.UTC(2026, 11, 9 + day, 20)))
    for (const at of days) {
      const face = moonFace(at)
      const relief = reliefOf(featuresTonight(face, list))
      if (face.phaseAngleDeg > 40 && face.phaseAngleDeg < 140) expect(relief, at.toISOString()).toBeGreaterThan(1)
      if (face.phaseAngleDeg < 10 || face.phaseAngleDeg > 165) expect(relief, at.toISOString()).toBeLessThan(0.5)
    }
  })
})

describe('the Moon at high power', () => {
  it('shows the more, the more stands at the day-night line', () => {
    const half = moonOn(HALF)
    const { features = [] } = half
    const low = features.filter(({ sunAltitudeDeg }) => sunAltitudeDeg < RELIEF_SUN_DEG)
    const views = [0, 1, 2, 3, low.length].map((count) => shown({ ...half, features: low.slice(0, count) }))
    expect(views).toEqual(views.toSorted((a, b) => a - b))
    expect((views.at(-1) ?? 0) - (views[0] ?? 0)).toBeGreaterThan(0.1)
    expect(shown(moonOn(FULL))).toBeLessThan(shown(half) - 0.25)
  })

  it('is judged by its phase alone where no list is at hand', () => {
    expect(shown(things.halfMoon)).toBeGreaterThan(0.95)
    expect(shown({ ...things.halfMoon, features: [] })).toBeLessThan(shown(things.halfMoon))
  })
})

describe('what is said of the Moon', () => {
  const said = (moon: MoonSubject, view = close, sunAltitudeDeg = -30) =>
    sighting(moon, { ...darkNight, sunAltitudeDeg }, view, conditionsWith({})).reasons
  const codes = (...asked: Parameters<typeof said>) => said(...asked).map(({ code }) => code)

  it('names up to three features under a low Sun', () => {
    const names = String(said(moonOn(HALF)).find(({ code }) => code === 'sight.moon-shadowed')?.values?.names)
    expect(names.split(', ')).toHaveLength(3)
    expect(codes(moonOn(HALF))).not.toContain('sight.moon-rays')
  })

  it('names rays and seas when it is full', () => {
    const names = said(moonOn(FULL)).find(({ code }) => code === 'sight.moon-rays')?.values?.names
    expect(names).toContain('Sea of')
    expect(codes(moonOn(FULL))).not.toContain('sight.moon-shadowed')
  })

  it('tells of the Earth’s light on a thin Moon under a dark sky, not by day and not at the half', () => {
    expect(codes(moonOn(THIN), viewAt(100, 40))).toContain('sight.earthshine')
    expect(codes(moonOn(THIN), viewAt(100, 40), 3)).not.toContain('sight.earthshine')
    expect(codes(moonOn(HALF), viewAt(100, 40))).not.toContain('sight.earthshine')
  })

  it('warns of the glare at low power, when much of it is lit', () => {
    expect(codes(moonOn(FULL), viewAt(150, 40))).toContain('sight.moon-glare')
    expect(codes(moonOn(FULL), viewAt(150, 150))).not.toContain('sight.moon-glare')
    expect(codes(moonOn(THIN), viewAt(150, 40))).not.toContain('sight.moon-glare')
  })
})
