import fc from 'fast-check'
import { expect, it } from 'vitest'
import { clamp, degrees, radians, separationDeg, wrap180, wrap360 } from '../../server/sky/angles.ts'

const direction = fc.record({
  lonDeg: fc.double({ min: 0, max: 360, noNaN: true }),
  latDeg: fc.double({ min: -90, max: 90, noNaN: true }),
})

it('wraps any angle into one turn without leaving its direction', () => {
  fc.assert(
    fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (angleDeg) => {
      const turned = wrap360(angleDeg)
      expect(turned).toBeGreaterThanOrEqual(0)
      expect(turned).toBeLessThan(360)
      expect(Math.cos(radians(turned))).toBeCloseTo(Math.cos(radians(angleDeg)), 8)
      expect(Math.sin(radians(turned))).toBeCloseTo(Math.sin(radians(angleDeg)), 8)
    }),
  )
})

it('wraps the edges as it says', () => {
  expect(wrap360(360)).toBe(0)
  expect(wrap360(-1e-15)).toBe(0)
  expect(Object.is(wrap360(-720), 0)).toBe(true)
  expect(wrap180(180)).toBe(-180)
  expect(wrap180(-181)).toBe(179)
})

it('keeps a number inside its range and lets NaN be seen', () => {
  expect([clamp(-1, 0, 2), clamp(1, 0, 2), clamp(3, 0, 2)]).toEqual([0, 1, 2])
  expect(clamp(Number.NaN, 0, 2)).toBeNaN()
})

it('measures the same distance both ways, never past half a turn', () => {
  fc.assert(
    fc.property(direction, direction, (a, b) => {
      const there = separationDeg(a.lonDeg, a.latDeg, b.lonDeg, b.latDeg)
      expect(there).toBeCloseTo(separationDeg(b.lonDeg, b.latDeg, a.lonDeg, a.latDeg), 9)
      expect(there).toBeGreaterThanOrEqual(0)
      expect(there).toBeLessThanOrEqual(180)
    }),
  )
})

it('measures a hundredth of an arcsecond and a near-opposite pair', () => {
  expect(separationDeg(10, 60, 10, 60 + 0.01 / 3600) * 3600).toBeCloseTo(0.01, 6)
  expect(separationDeg(10, 20, 190, -20 + 1e-6)).toBeCloseTo(180 - 1e-6, 9)
  expect(separationDeg(0, 90, 123, 90)).toBeCloseTo(0, 12)
  expect(degrees(radians(12.5))).toBeCloseTo(12.5, 12)
})
