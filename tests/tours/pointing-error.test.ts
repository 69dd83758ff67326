import { describe, expect, it } from 'vitest'
import type { Horizontal } from '../../server/sky/horizontal.ts'
import { meanErrorFactor } from '../../server/tours/pointing-error.ts'

/** tr P from the root mean square over the whole sky, sqrt(2/3 tr P). */
const attitudeVariance = (...stars: readonly [Horizontal, Horizontal]): number =>
  1.5 * meanErrorFactor(...stars, []) ** 2

describe('the pointing error that is left', () => {
  const [low, high] = [
    { altitudeDeg: 25, azimuthDeg: 40 },
    { altitudeDeg: 60, azimuthDeg: 170 },
  ]

  it('is the same wherever the compass has its north, and whichever star comes first', () => {
    const turned = [low, high].map((star) => ({ ...star, azimuthDeg: star.azimuthDeg + 77 }))
    const [a = low, b = high] = turned
    expect(attitudeVariance(a, b)).toBeCloseTo(attitudeVariance(high, low), 9)
  })

  it('is least midway between two stars a quarter turn apart, and worst off to one side', () => {
    const [east, south] = [90, 180].map((azimuthDeg) => ({ altitudeDeg: 0, azimuthDeg }))
    if (!east || !south) throw new Error('Two stars are needed')
    const errorAt = (azimuthDeg: number, altitudeDeg: number) =>
      meanErrorFactor(east, south, [{ azimuthDeg, altitudeDeg }])
    expect(errorAt(135, 0)).toBeLessThan(errorAt(135, 90))
    expect(meanErrorFactor(east, south, [east, { azimuthDeg: 0, altitudeDeg: 90 }])).toBeCloseTo(
      (errorAt(90, 0) + errorAt(0, 90)) / 2,
      9,
    )
  })

  it('has no end for one star taken twice, or for two in one line', () => {
    expect(meanErrorFactor(low, low, [])).toBe(Number.POSITIVE_INFINITY)
    expect(attitudeVariance(low, { altitudeDeg: -25, azimuthDeg: 220 })).toBe(Number.POSITIVE_INFINITY)
  })
})
