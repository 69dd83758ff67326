import { describe, expect, it } from 'vitest'
import { deltaTSec } from '../../server/sky/delta-t.ts'
import { moonQuarters } from '../../server/sky/moon-quarters.ts'

// Meeus, Astronomical Algorithms, 2nd ed., examples 49.a and 49.b, from memory.
const NEW_1977 = new Date('1977-02-18T03:37:42Z') // dynamical time
const LAST_2044 = new Date('2044-01-21T23:48:17Z') // dynamical time
const universal = (dynamical: Date): number =>
  dynamical.getTime() - 1000 * deltaTSec((dynamical.getTime() - Date.UTC(2000, 0, 1, 12)) / 86_400_000)

describe('the new, half and full Moons', () => {
  it('has the new Moon of February 1977 and the last quarter of January 2044 to the two minutes', () => {
    const [first] = moonQuarters(new Date('1977-02-15T00:00:00Z'), 5)
    expect(first?.quarter).toBe('new')
    expect(Math.abs((first?.at.getTime() ?? 0) - universal(NEW_1977))).toBeLessThan(120_000)
    const [second] = moonQuarters(new Date('2044-01-20T00:00:00Z'), 4)
    expect(second?.quarter).toBe('last-quarter')
    expect(Math.abs((second?.at.getTime() ?? 0) - universal(LAST_2044))).toBeLessThan(120_000)
  })

  it('finds them in their order, none before or after the days asked for', () => {
    const from = new Date('2026-12-16T11:00:00Z')
    const found = moonQuarters(from, 28)
    expect(found.map(({ quarter }) => quarter)).toEqual(['first-quarter', 'full', 'last-quarter', 'new'])
    for (const { at } of found) {
      expect(at.getTime()).toBeGreaterThan(from.getTime())
      expect(at.getTime() - from.getTime()).toBeLessThanOrEqual(28 * 86_400_000)
    }
    expect(moonQuarters(from, 0)).toEqual([])
  })
})
