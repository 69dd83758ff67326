import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bodyLook } from '../../server/sky/body.ts'
import { type SkyEvening, skyEvening } from '../../server/sky/evening.ts'
import type { Place } from '../../server/sky/place.ts'

const MINUTE_MS = 60_000
const DAY_MS = 86_400_000
const at = (latitudeDeg: number, longitudeDeg = 0): Place => ({ latitudeDeg, longitudeDeg, heightM: 0 })
const found = (evening: SkyEvening): string[] =>
  Object.entries(evening)
    .filter(([key, value]) => value !== null && !key.startsWith('moon'))
    .map(([key]) => key)

const sunAltitudeDeg = (when: Date, place: Place): number => bodyLook('sun', when, place).altitudeDeg

describe('what does not happen', () => {
  it('finds no sunset, dusk or dawn in a polar summer day', () => {
    expect(found(skyEvening(new Date('2026-06-21T10:40:00Z'), at(69.65, 18.96)))).toEqual([])
  })

  it('finds neither sunset nor sunrise in a polar winter day, but every twilight', () => {
    const names = found(skyEvening(new Date('2026-12-21T10:40:00Z'), at(69.65, 18.96)))
    expect(names).toHaveLength(6)
    expect(names).not.toContain('sunsetAt')
    expect(names).not.toContain('sunriseAt')
  })

  it('finds nothing at all at the pole in December or June', () => {
    expect(found(skyEvening(new Date('2026-12-21T12:00:00Z'), at(90)))).toEqual([])
    expect(found(skyEvening(new Date('2026-06-21T12:00:00Z'), at(-90)))).toEqual([])
  })

  it('gets no darker than civil dusk at 60 north in June', () => {
    expect(found(skyEvening(new Date('2026-06-21T10:20:00Z'), at(60, 25)))).toEqual([
      'sunsetAt',
      'civilDuskAt',
      'civilDawnAt',
      'sunriseAt',
    ])
  })

  it('is never astronomically dark at 51.5 north on the longest day', () => {
    const evening = skyEvening(new Date('2026-06-21T12:00:00Z'), at(51.5))
    expect(evening.nauticalDuskAt).not.toBeNull()
    expect([evening.astronomicalDuskAt, evening.astronomicalDawnAt]).toEqual([null, null])
  })
})

describe('what happens', () => {
  it('comes in the order of a night', () => {
    const { moonriseAt: _rise, moonsetAt: _set, ...sun } = skyEvening(new Date('2026-10-10T12:00:00Z'), at(48, 11))
    const times = Object.values(sun).map((when) => when?.getTime() ?? Number.NaN)
    expect(times).toEqual([...times].sort((a, b) => a - b))
    expect(times).toHaveLength(8)
  })

  it('does not depend on the height of the place', () => {
    const noon = new Date('2026-10-10T16:00:00Z')
    expect(skyEvening(noon, { ...at(-16, -68), heightM: 4205 })).toEqual(skyEvening(noon, at(-16, -68)))
  })

  it('has the Moon rise about 50 minutes later every day, so that one noon to noon of a month has no rise', () => {
    const rises = Array.from({ length: 30 }, (_, day) =>
      skyEvening(new Date(Date.UTC(2026, 9, 1 + day, 12)), at(48)).moonriseAt?.getTime(),
    )
    expect(rises.filter((rise) => rise === undefined).length).toBeGreaterThan(0)
    expect(rises.filter((rise) => rise === undefined).length).toBeLessThan(3)
  })

  it('agrees with the altitude of the Sun, sampled every two minutes, at any place and date', () => {
    const anyNight = fc.record({
      latitudeDeg: fc.double({ min: -90, max: 90, noNaN: true }),
      noonAt: fc.date({ min: new Date('2024-01-01'), max: new Date('2031-01-01'), noInvalidDate: true }),
    })
    fc.assert(
      fc.property(anyNight, ({ latitudeDeg, noonAt }) => {
        const place = at(latitudeDeg)
        const heights = Array.from({ length: DAY_MS / (2 * MINUTE_MS) + 1 }, (_, step) =>
          sunAltitudeDeg(new Date(noonAt.getTime() + step * 2 * MINUTE_MS), place),
        )
        const { nauticalDuskAt, astronomicalDawnAt } = skyEvening(noonAt, place)
        checkCrossing(nauticalDuskAt, firstCrossing(heights, -12, -1), -12, place, noonAt)
        checkCrossing(astronomicalDawnAt, firstCrossing(heights, -18, 1), -18, place, noonAt)
      }),
      { numRuns: 30 },
    )
  })
})

/** Index of the first sample interval in which the height passes the level upward (1) or downward (-1). */
const firstCrossing = (heights: readonly number[], level: number, way: 1 | -1): number =>
  heights.findIndex((height, step) => {
    const next = heights[step + 1]
    return next !== undefined && way * (height - level) < 0 && way * (next - level) >= 0
  })

function checkCrossing(when: Date | null, step: number, level: number, place: Place, noonAt: Date): void {
  if (when === null) expect(step).toBe(-1)
  else {
    expect(Math.abs(sunAltitudeDeg(when, place) - level)).toBeLessThan(0.001)
    const minutes = (when.getTime() - noonAt.getTime()) / MINUTE_MS
    if (step >= 0) expect(Math.abs(minutes - 2 * step - 1)).toBeLessThanOrEqual(1.01)
  }
}
