import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { backdropOf } from '../../server/sight/backdrop.ts'
import { chanceAndView, prepare, sighting } from '../../server/sight/sighting.ts'
import { skyBrightness } from '../../server/sight/sky-brightness.ts'
import { anyConditions, anyGeometry, anyThing, anyView } from '../support/sight-data.ts'

const RUNS = { numRuns: 1500 }
const isShare = (value: number) => value >= 0 && value <= 1

describe('any thing, any place, any hour, any tube', () => {
  it('has a chance and a view between 0 and 1, a finite margin and finite reasons', () => {
    fc.assert(
      fc.property(anyThing, anyGeometry, anyView, anyConditions, (subject, geometry, view, conditions) => {
        const seen = sighting(subject, geometry, view, conditions)
        expect([seen.chance, seen.chanceLow, seen.chanceHigh, seen.view].every(isShare)).toBe(true)
        expect(seen.chanceLow).toBeLessThanOrEqual(seen.chance + 1e-6)
        expect(seen.chance).toBeLessThanOrEqual(seen.chanceHigh + 1e-6)
        expect(Number.isFinite(seen.marginMag)).toBe(true)
        expect(seen.limitMag === null).toBe(geometry.altitudeDeg <= 0)
        for (const { values = {}, magnitudes = 0 } of seen.reasons)
          expect(
            [magnitudes, ...Object.values(values)].every((one) => typeof one === 'string' || Number.isFinite(one)),
          ).toBe(true)
      }),
      RUNS,
    )
  })

  it('has the same chance and view in a table as on its own page', () => {
    fc.assert(
      fc.property(anyThing, anyGeometry, anyView, anyConditions, (subject, geometry, view, conditions) => {
        const { chance, view: shown } = sighting(subject, geometry, view, conditions)
        expect(chanceAndView(subject, geometry, view, conditions)).toEqual({ chance, view: shown })
        const known = backdropOf(geometry, conditions)
        expect(prepare(subject, view, conditions)(geometry, known)).toEqual({ chance, view: shown })
      }),
      RUNS,
    )
  })

  it('names its reasons heaviest first', () => {
    fc.assert(
      fc.property(anyThing, anyGeometry, anyView, anyConditions, (subject, geometry, view, conditions) => {
        const weights = sighting(subject, geometry, view, conditions).reasons.map(({ magnitudes = 0 }) => magnitudes)
        expect(weights).toEqual(weights.toSorted((a, b) => b - a))
      }),
      RUNS,
    )
  })

  it('stands before a sky whose parts add up', () => {
    fc.assert(
      fc.property(anyGeometry, anyConditions, (geometry, conditions) => {
        const sky = skyBrightness(geometry, conditions)
        expect(sky.siteCd).toBeGreaterThan(0)
        expect(Math.min(sky.moonCd, sky.twilightCd)).toBeGreaterThanOrEqual(0)
        expect(sky.totalCd).toBe(sky.siteCd + sky.moonCd + sky.twilightCd)
        expect(Number.isFinite(sky.magPerArcsec2)).toBe(true)
      }),
      RUNS,
    )
  })
})
