import { describe, expect, it } from 'vitest'
import { msToNext } from '../../views/scripts/evening.ts'

const MINUTE_MS = 60_000
const nothing = { untilAt: null, next: null }
const at = (
  clock: string,
  stations: readonly { untilAt: string | null; next: { atAt: string } | null }[] = [nothing],
) => ({
  at: `2026-12-17T${clock}Z`,
  stations,
})

describe('the time until a page changes by itself', () => {
  it.each([
    ['17:20:00.000', 'Europe/Zurich', 10],
    ['17:29:30.000', 'Europe/Zurich', 0.5],
    ['17:30:00.000', 'Europe/Zurich', 30],
    ['17:20:00.000', 'Asia/Kathmandu', 25],
    ['17:20:00.000', 'Asia/Kolkata', 10],
  ])('ends at the half hours of the site: at %s in %s in %d minutes', (clock, zone, minutes) => {
    expect(msToNext({ field: at(clock), zone, speed: 1 })).toBe(minutes * MINUTE_MS)
  })

  it('ends when the plan moves on at any station', () => {
    const stations = [
      { untilAt: '2026-12-17T17:25:00Z', next: { atAt: '2026-12-17T17:26:00Z' } },
      { untilAt: '2026-12-17T17:10:00Z', next: { atAt: '2026-12-17T17:24:00Z' } },
    ]
    expect(msToNext({ field: at('17:20:00', stations), zone: 'Europe/Zurich', speed: 1 })).toBe(4 * MINUTE_MS)
  })

  it('runs as fast as a rehearsal, but leaves the laptop two seconds', () => {
    expect(msToNext({ field: at('17:20:00'), zone: 'Europe/Zurich', speed: 60 })).toBe(10_000)
    expect(msToNext({ field: at('17:20:00'), zone: 'Europe/Zurich', speed: 3_600 })).toBe(2_000)
  })

  it('is none while the clock stands or nothing was told', () => {
    expect(msToNext({ field: at('17:20:00'), zone: 'Europe/Zurich', speed: 0 })).toBeNull()
    expect(msToNext({ zone: 'Europe/Zurich', speed: 1 })).toBeNull()
  })
})
