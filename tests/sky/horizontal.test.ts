import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { toHorizontal } from '../../server/sky/horizontal.ts'

describe('a direction over a place', () => {
  it('stands in the south at its highest for a northern place, and in the north for a southern one', () => {
    expect(toHorizontal(0, 10, 50).azimuthDeg).toBeCloseTo(180, 9)
    expect(toHorizontal(0, 10, 50).altitudeDeg).toBeCloseTo(50, 9)
    expect(toHorizontal(0, 10, -50).azimuthDeg).toBeCloseTo(0, 9)
  })

  it('stands in the east before and in the west after the meridian', () => {
    expect(toHorizontal(-90, 0, 45)).toEqual({ altitudeDeg: expect.closeTo(0, 9), azimuthDeg: expect.closeTo(90, 9) })
    expect(toHorizontal(90, 0, 45)).toEqual({ altitudeDeg: expect.closeTo(0, 9), azimuthDeg: expect.closeTo(270, 9) })
  })

  it('keeps its declination as altitude at the pole of the Earth', () => {
    for (const hourAngleDeg of [0, 77, 200]) {
      expect(toHorizontal(hourAngleDeg, 23.4, 90).altitudeDeg).toBeCloseTo(23.4, 9)
    }
  })

  it('is a number everywhere, overhead and underfoot too', () => {
    const angle = (most: number) => fc.double({ min: -most, max: most, noNaN: true })
    fc.assert(
      fc.property(angle(720), angle(90), angle(90), (hourAngleDeg, decDeg, latitudeDeg) => {
        const { altitudeDeg, azimuthDeg } = toHorizontal(hourAngleDeg, decDeg, latitudeDeg)
        expect(Math.abs(altitudeDeg)).toBeLessThanOrEqual(90)
        expect(azimuthDeg).toBeGreaterThanOrEqual(0)
        expect(azimuthDeg).toBeLessThan(360)
      }),
    )
    expect(toHorizontal(0, 50, 50).altitudeDeg).toBeCloseTo(90, 5)
    expect(toHorizontal(180, -50, 50).altitudeDeg).toBeCloseTo(-90, 5)
  })
})
