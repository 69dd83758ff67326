import { describe, expect, it } from 'vitest'
import { sighting } from '../../server/sight/sighting.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { conditionsWith, darkNight, things, viewAt } from '../support/sight-data.ts'

type Asked = Partial<{ view: ReturnType<typeof viewAt>; altitudeDeg: number; zenithMag: number; seeingArcsec: number }>

function reasons(subject: Subject, asked: Asked = {}) {
  const { view = viewAt(102, 60), altitudeDeg = 55, zenithMag = 19.5, seeingArcsec = 2 } = asked
  return sighting(subject, { ...darkNight, altitudeDeg }, view, conditionsWith({ zenithMag, seeingArcsec })).reasons
}
const codes = (subject: Subject, asked?: Asked) => reasons(subject, asked).map(({ code }) => code)
const values = (subject: Subject, code: string, asked?: Asked) =>
  reasons(subject, asked).find((reason) => reason.code === code)?.values

describe('what is said of Jupiter', () => {
  it('counts the moons beside it, and names the one before the disc and the shadow it throws', () => {
    expect(values(things.jupiter, 'sight.moons-beside', { view: viewAt(150, 120) })).toEqual({ count: 3 })
    expect(values(things.jupiter, 'sight.moon-before')).toEqual({ name: 'Callisto' })
    expect(values(things.jupiter, 'sight.moon-shadow', { view: viewAt(150, 120) })).toEqual({ name: 'Callisto' })
    expect(codes(things.jupiter, { view: viewAt(60, 60), seeingArcsec: 4 })).not.toContain('sight.moon-shadow')
    const hidden = things.jupiter.moons.map((moon) => ({ ...moon, state: 'hidden' as const }))
    expect(codes({ ...things.jupiter, moons: hidden })).not.toContain('sight.moons-beside')
    expect(codes({ ...things.jupiter, moons: hidden }).filter((code) => code === 'sight.moon-hidden')).toHaveLength(4)
  })

  it('tells of the stripes where they show, and why not where they do not', () => {
    expect(codes(things.jupiter, { view: viewAt(150, 120) })).toContain('sight.stripes')
    expect(codes(things.jupiter, { view: viewAt(50, 20) })).toContain('sight.no-stripes')
    expect(codes(things.jupiter, { view: viewAt(150, 120), seeingArcsec: 8 })).toContain('sight.no-stripes')
  })
})

describe('what is said of the other planets', () => {
  it('has the gap of an open ring, and Titan where the star is bright enough', () => {
    const titan = { name: 'Titan', magnitude: 8.4, offArcsec: null, state: 'beside', castsShadow: false } as const
    const saturn = { ...things.saturn, moons: [titan] }
    expect(codes(saturn, { view: viewAt(150, 150) })).toEqual(
      expect.arrayContaining(['sight.ring-open', 'sight.titan']),
    )
    expect(codes(saturn, { view: viewAt(40, 20), zenithMag: 16 })).not.toContain('sight.titan')
    expect(codes({ ...saturn, ringMinorArcsec: 1 }, { view: viewAt(150, 150) })).not.toContain('sight.ring-open')
  })

  it('has the phase where the disc is large enough', () => {
    expect(values(things.venus, 'sight.crescent')).toEqual({ percent: 35 })
    expect(values({ ...things.venus, litFraction: 0.6 }, 'sight.phase')).toEqual({ percent: 60 })
    expect(codes({ ...things.venus, litFraction: 0.97 })).not.toContain('sight.phase')
    const mars = { ...things.venus, body: 'mars', magnitude: 0, litFraction: 0.88, diameterArcsec: 7 } as const
    expect(codes(mars, { view: viewAt(150, 150) })).toContain('sight.phase')
    expect(codes(mars, { view: viewAt(150, 50) })).not.toContain('sight.phase')
  })

  it('has the coloured edges that the air makes low down', () => {
    expect(values(things.saturn, 'sight.colour-fringe', { altitudeDeg: 15 })).toEqual({ altitude: 15 })
    expect(codes(things.saturn, { altitudeDeg: 40 })).not.toContain('sight.colour-fringe')
  })
})

describe('what is said of faint things', () => {
  it('tells a grainy edge from a ball of stars', () => {
    const m22 = { kind: 'globular', magnitude: 5.1, halfLightArcmin: 3.36, branchMag: 14.15 } as const
    expect(codes(m22, { view: viewAt(60, 30) })).toContain('sight.smudge')
    expect(codes(m22, { view: viewAt(200, 120) })).toContain('sight.partly-resolved')
    expect(codes(m22, { view: viewAt(400, 200), zenithMag: 21 })).toContain('sight.well-resolved')
  })

  it('says that a heart shows before the rest', () => {
    expect(codes(things.heartedGalaxy)).toContain('sight.core')
    expect(codes(things.m31)).not.toContain('sight.core')
  })

  it('tells an even comet from one with a bright middle', () => {
    expect(codes({ ...things.comet, condensation: 1 })).toContain('sight.coma-diffuse')
    expect(codes({ ...things.comet, condensation: 7 })).toContain('sight.coma-bright-middle')
    expect(codes(things.comet).filter((code) => code.startsWith('sight.coma'))).toEqual([])
  })

  it('says that two stars differ in colour when they are seen as two', () => {
    expect(codes(things.albireo)).toContain('sight.two-colours')
    expect(codes(things.albireo, { view: viewAt(102, 4) })).not.toContain('sight.two-colours')
    expect(codes(things.castor, { view: viewAt(150, 120) })).not.toContain('sight.two-colours')
  })
})
