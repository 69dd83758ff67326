import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { viewThrough, withFactor } from '../../server/sight/optics.ts'
import { type Sighting, sighting } from '../../server/sight/sighting.ts'
import type { SkyGeometry } from '../../server/sight/sky-brightness.ts'
import type { Subject } from '../../server/sight/subject.ts'
import {
  anyConditions,
  anyGeometry,
  anyView,
  conditionsWith,
  darkNight,
  things,
  viewAt,
} from '../support/sight-data.ts'

const M101: Subject = { kind: 'galaxy', magnitude: 7.86, majorArcmin: 28.8, minorArcmin: 26.9 } // RC3, from memory
const day: SkyGeometry = { ...darkNight, sunAltitudeDeg: 30, sunSeparationDeg: 90 }

const codes = ({ reasons }: Sighting) => reasons.map(({ code }) => code)
const told = (seen: Sighting, code: string) => seen.reasons.find((reason) => reason.code === code)
const town = conditionsWith({ zenithMag: 18.5 })

describe('a thing beyond the edge of sight', () => {
  it('is called far too faint and not at the edge of what is seen', () => {
    const seen = sighting(M101, darkNight, viewAt(102, 40), town)
    expect(seen.marginMag).toBeLessThan(-1.2)
    expect(codes(seen)).toContain('sight.too-faint')
    expect(codes(seen)).not.toContain('sight.faint')
  })

  it('is still at the edge where one newcomer in ten sees it', () => {
    const seen = sighting(things.m51, darkNight, viewAt(60, 30), conditionsWith({ zenithMag: 20.6 }))
    expect(seen.marginMag).toBeGreaterThan(-1.2)
    expect(seen.marginMag).toBeLessThan(0.6)
    expect(codes(seen)).toContain('sight.faint')
  })

  it('is lost in the bright sky by day, which is no twilight', () => {
    const seen = sighting(things.m31, day, viewAt(102, 40), town)
    expect(codes(seen)).toContain('sight.sky-too-bright')
    expect(codes(seen)).toContain('sight.daylight')
    for (const code of ['sight.faint', 'sight.too-faint', 'sight.twilight']) expect(codes(seen)).not.toContain(code)
  })
})

describe('what no light helps', () => {
  it('is the heaviest reason for a pair that is not split, and its light is no reason at all', () => {
    const seen = sighting(things.castor, darkNight, viewAt(150, 15), conditionsWith({}))
    expect(seen.chance).toBeLessThan(0.2)
    expect(codes(seen)[0]).toBe('sight.low-power')
    expect(codes(seen)).not.toContain('sight.bright')
  })

  it('is the heaviest reason for a star pattern that the field cuts', () => {
    const seen = sighting(things.coathanger, darkNight, viewAt(150, 60), conditionsWith({}))
    expect(seen.chance).toBeLessThan(0.2)
    expect(codes(seen)[0]).toMatch(/^sight\.field-/)
    expect(codes(seen)).not.toContain('sight.bright')
  })

  it('leads in every view and sky in which light is to spare and the chance is low', () => {
    const causes = /^sight\.(field-|low-power|pair-)/
    const pairs = fc.constantFrom(things.castor, things.albireo, things.coathanger)
    const high = anyGeometry.map((geometry) => ({ ...geometry, altitudeDeg: 50 }))
    let heldBack = 0
    fc.assert(
      fc.property(pairs, high, anyView, anyConditions, (subject, geometry, view, asked) => {
        const conditions = { ...asked, moonGazerShare: 0 }
        const seen = sighting(subject, geometry, view, conditions)
        const isBright = told(seen, 'sight.bright') !== undefined
        if (isBright) expect(seen.chance).toBeGreaterThanOrEqual(0.5)
        if (seen.chance >= 0.5 || codes(seen).some((code) => /faint|too-bright/.test(code))) return
        heldBack++
        expect(codes(seen)[0]).toMatch(causes)
      }),
      { seed: 7, numRuns: 3000 },
    )
    expect(heldBack).toBeGreaterThan(100)
  })
})

describe('a power beyond what tube and air bear', () => {
  const optics = { apertureMm: 150, focalLengthMm: 750, obstruction: 0.2, transmission: 0.88 }
  const through = (focalLengthMm: number, factor = 1) =>
    viewThrough(optics, withFactor({ focalLengthMm, apparentFieldDeg: 52, fieldStopMm: null }, factor))
  const calm = conditionsWith({ seeingArcsec: 2.5 })

  it('is a reason with the power and the most that holds', () => {
    const seen = sighting(things.saturn, darkNight, through(2, 5), calm)
    expect(told(seen, 'sight.power-beyond')?.values).toEqual({ power: 1875, most: 140 })
    const under = sighting(things.saturn, darkNight, through(6), calm)
    expect(codes(under)).not.toContain('sight.power-beyond')
  })

  it('leaves a field that is told in arcminutes and is never nothing', () => {
    const seen = sighting(things.m13, darkNight, through(2, 5), calm)
    expect(told(seen, 'sight.field-small')).toBeUndefined()
    expect(told(seen, 'sight.field-arcmin')?.values).toEqual({ field: 1.7, needs: 9.7 })
  })
})

describe('an exit pupil wider than the eye', () => {
  it('is a reason with both widths, at every brightness, and one that the pupil takes in is none', () => {
    for (const subject of [things.m31, things.saturn]) {
      const wide = sighting(subject, darkNight, viewAt(150, 15), conditionsWith({ pupilMm: 6 }))
      expect(told(wide, 'sight.light-lost')?.values).toEqual({ exitPupil: 10, pupil: 6 })
      const taken = sighting(subject, darkNight, viewAt(150, 25), conditionsWith({ pupilMm: 6 }))
      expect(codes(taken)).not.toContain('sight.light-lost')
    }
  })
})

it('weighs what light there is to spare with the very number that it says', () => {
  const bright = told(sighting(things.venus, darkNight, viewAt(150, 60), conditionsWith({})), 'sight.bright')
  expect(bright?.magnitudes).toBeGreaterThan(9)
  expect(bright?.values?.mag).toBeCloseTo(bright?.magnitudes ?? 0, 0.5)
})
