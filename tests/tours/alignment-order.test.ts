import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { apparentAltitudeDeg } from '../../server/sky/refraction.ts'
import { starHorizontal } from '../../server/sky/star.ts'
import { alignmentPairs } from '../../server/tours/alignment.ts'
import { noPairCause } from '../../server/tours/alignment-outlook.ts'
import { skylineAt } from '../../server/tours/skyline.ts'
import { alignmentQuestion, orderOf } from '../support/alignment-order.ts'

/** As many centring errors are drawn for each pair; thirty nights are in tests/long. */
const DRAWS = 10_000

describe('the order of the alignment pairs', () => {
  it.each([0, 9, 34])('is that of simulated centring errors on generated night %i', (number) => {
    const { pairs, wrong, decided, lossPart, worstPart, underTwice } = orderOf(number, DRAWS)
    expect(wrong).toEqual([])
    expect(pairs).toBeGreaterThan(9)
    expect(decided).toBeGreaterThan(0)
    expect(lossPart).toBeLessThan(0.01)
    expect(worstPart).toBeLessThan(0.03)
    expect(underTwice).toBeGreaterThan(0.95)
  })
})

describe('the alignment stars of any night', () => {
  const moments = fc.record({ number: fc.integer({ min: 0, max: 4000 }), minutes: fc.integer({ min: -90, max: 300 }) })
  const questionAt = ({ number, minutes }: { readonly number: number; readonly minutes: number }) => {
    const question = alignmentQuestion(number)
    return { ...question, at: new Date(question.at.getTime() + minutes * 60_000) }
  }

  it('stand above the trees, 15 to 75 degrees high, then and twenty minutes later', () => {
    let seen = 0
    fc.assert(
      fc.property(moments, (moment) => {
        const question = questionAt(moment)
        const { site } = question.night
        const placeOf = new Map(question.stars.map(({ key, place }) => [key, place]))
        for (const { key } of alignmentPairs(question).flatMap((pair) => pair.stars)) {
          const place = placeOf.get(key)
          if (!place) throw new Error(`${key} is no star`)
          for (const laterMin of [0, 20]) {
            const at = new Date(question.at.getTime() + laterMin * 60_000)
            const { altitudeDeg, azimuthDeg } = starHorizontal(place, at, site)
            const seenDeg = apparentAltitudeDeg(altitudeDeg)
            expect(seenDeg).toBeGreaterThan(skylineAt(site.horizon, azimuthDeg).altitudeDeg)
            expect(seenDeg).toBeGreaterThanOrEqual(15 - 0.001)
            expect(seenDeg).toBeLessThanOrEqual(75 + 0.001)
          }
          seen++
        }
      }),
      { numRuns: 200 },
    )
    expect(seen).toBeGreaterThan(400)
  })

  it('are there exactly when nothing stands in the way of a pair', () => {
    fc.assert(
      fc.property(moments, (moment) => {
        const question = questionAt(moment)
        const cause = noPairCause(question.stars, question.night, question.at)
        expect(alignmentPairs(question).length > 0).toBe(cause === null)
      }),
      { numRuns: 200 },
    )
  })
})
