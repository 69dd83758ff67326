import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { clearSpans } from '../../server/tours/clear-spans.ts'
import { eveningSky } from '../../server/tours/evening.ts'
import { eveningChance } from '../../server/tours/evening-chance.ts'
import { gridOf } from '../../server/tours/grid-make.ts'
import { instantOf, nightHours } from '../../server/tours/hours.ts'
import { comesAt, type Gate, leaveBy, whyNotOf, whyNotWithin } from '../../server/tours/offered.ts'
import type { SkylinePoint } from '../../server/tours/site.ts'
import { stepAt, targetAt } from '../../server/tours/sky-at.ts'
import { demoNight } from '../support/demo-night.ts'
import { showObject } from '../support/show-objects.ts'

const capella = showObject({ key: 'capella', raDeg: 79.17, decDeg: 46, magnitude: 0.1, appeal: 0.9 })
const betelgeuse = showObject({ key: 'betelgeuse', raDeg: 88.79, decDeg: 7.41, magnitude: 0.5 })
const sky = eveningSky(demoNight, [capella, betelgeuse])
const mount = { floorDeg: 5, ceilingDeg: 85 }
const at = (time: string) => instantOf(demoNight, time)
const minutesAfter = (start: Date, minutes: number) => new Date(start.getTime() + minutes * 60_000)

/** Something thin and high at one compass point, the meadow beside it. */
const post = (azimuthDeg: number, halfWidthDeg: number, altitudeDeg: number): SkylinePoint[] => [
  { azimuthDeg: azimuthDeg - halfWidthDeg, altitudeDeg: 0, name: '' },
  { azimuthDeg, altitudeDeg, name: 'lamp post' },
  { azimuthDeg: azimuthDeg + halfWidthDeg, altitudeDeg: 0, name: '' },
]
const whyNotAt = (gate: Gate, index: number, when: Date) => whyNotOf(gate, index)(stepAt(gate.sky, when))
const gateOf = (horizon: readonly SkylinePoint[]) => ({ sky, site: { horizon: [...horizon] }, mount })

describe('a lamp post that hides a star for two minutes', () => {
  const passAt = at('19:02')
  const gate = gateOf(post(targetAt(sky, 0, passAt).azimuthDeg, 0.2, 60))
  const whyNot = whyNotOf(gate, 0)

  it('stands between two five-minute steps, at which the star is clear', () => {
    expect([whyNotAt(gate, 0, at('19:00')), whyNotAt(gate, 0, at('19:05'))]).toEqual([null, null])
    expect(whyNotAt(gate, 0, passAt)).toEqual({ code: 'skyline', name: 'lamp post' })
  })

  it('is the reason to leave', () => {
    const leave = leaveBy(sky, whyNot, at('18:30'), at('21:00'))
    expect(leave?.cause).toEqual({ code: 'skyline', name: 'lamp post' })
    expect(Math.abs((leave?.at.getTime() ?? 0) - passAt.getTime())).toBeLessThanOrEqual(120_000)
  })

  it('is passed again a few minutes later', () => {
    const comes = comesAt(sky, whyNot, passAt, at('21:00'))
    expect(comes?.cause).toEqual({ code: 'skyline', name: 'lamp post' })
    expect((comes?.at.getTime() ?? 0) - passAt.getTime()).toBeLessThanOrEqual(180_000)
    expect(clearSpans(sky, whyNot, at('18:00'), at('21:00'))).toHaveLength(2)
  })

  it('keeps the star off the programme in that quarter hour alone', () => {
    const night = { ...demoNight, site: { ...demoNight.site, horizon: gate.site.horizon } }
    const objects = [capella, betelgeuse]
    const grid = gridOf({ night, objects, sky, chance: eveningChance(sky, night, objects) })
    const hidden = grid.borders.slice(0, -1).flatMap((border, t) => ((grid.worth[t] ?? 0) > 0 ? [] : [border]))
    expect(grid.candidates[0]?.targetKey).toBe('capella')
    expect(hidden).toEqual([at('19:00')])
  })
})

describe('a gap of three minutes between two walls', () => {
  const passAt = at('20:02')
  const azimuthDeg = targetAt(sky, 1, passAt).azimuthDeg
  const wall = (from: number, to: number) => [
    { azimuthDeg: from, altitudeDeg: 60, name: 'wall' },
    { azimuthDeg: to, altitudeDeg: 60, name: 'wall' },
  ]
  const gate = gateOf([
    ...wall(azimuthDeg - 40, azimuthDeg - 0.4),
    { azimuthDeg, altitudeDeg: 0, name: '' },
    ...wall(azimuthDeg + 0.4, azimuthDeg + 40),
  ])

  it('lets the star come and go', () => {
    const whyNot = whyNotOf(gate, 1)
    const comes = comesAt(sky, whyNot, at('19:00'), at('21:00'))
    expect(Math.abs((comes?.at.getTime() ?? 0) - passAt.getTime())).toBeLessThanOrEqual(120_000)
    const leave = leaveBy(sky, whyNot, comes?.at ?? passAt, at('21:00'))
    expect(leave?.at.getTime()).toBeGreaterThanOrEqual(passAt.getTime())
  })
})

describe('any skyline', () => {
  const star = fc.integer({ min: 0, max: 1 })
  const minute = fc.integer({ min: 0, max: 150 })
  /** Posts and walls where the two stars walk, from a few hundredths of a degree wide to a quarter of the compass. */
  const skylines = fc
    .array(
      fc.record({
        azimuthDeg: fc.double({ min: 60, max: 130, noNaN: true }),
        halfWidthDeg: fc.oneof(
          fc.double({ min: 0.02, max: 0.5, noNaN: true }),
          fc.double({ min: 1, max: 45, noNaN: true }),
        ),
        altitudeDeg: fc.double({ min: 5, max: 60, noNaN: true }),
      }),
      { minLength: 1, maxLength: 12 },
    )
    .map((posts) => posts.flatMap((row) => post(row.azimuthDeg, row.halfWidthDeg, row.altitudeDeg)))
  const { opensAt, closesAt } = nightHours(demoNight)

  it('is looked through every seven seconds: a star is in sight until its leave-by, and hidden within a minute after', () => {
    fc.assert(
      fc.property(skylines, minute, star, (horizon, from, i) => {
        const gate = gateOf(horizon)
        const fromAt = minutesAfter(opensAt, from)
        fc.pre(whyNotAt(gate, i, fromAt) === null)
        const leave = leaveBy(sky, whyNotOf(gate, i), fromAt, closesAt)
        const untilMs = leave?.at.getTime() ?? closesAt.getTime()
        const seconds = Array.from({ length: (untilMs - fromAt.getTime()) / 7000 }, (_, k) => 7 * k)
        expect(seconds.filter((s) => whyNotAt(gate, i, minutesAfter(fromAt, s / 60)) !== null)).toEqual([])
        if (leave === null) return
        const soon = stepAt(sky, minutesAfter(leave.at, 1.2))
        expect(whyNotWithin(gate, i, stepAt(sky, leave.at), soon)).not.toBeNull()
      }),
      { numRuns: 100 },
    )
  })

  it('shows a star from when it comes, and at no full minute before', () => {
    fc.assert(
      fc.property(skylines, minute, star, (horizon, from, i) => {
        const gate = gateOf(horizon)
        const fromAt = minutesAfter(opensAt, from)
        fc.pre(whyNotAt(gate, i, fromAt) !== null)
        const comes = comesAt(sky, whyNotOf(gate, i), fromAt, closesAt)
        const comesMs = comes?.at.getTime() ?? closesAt.getTime()
        if (comes !== null) expect(whyNotAt(gate, i, comes.at)).toBeNull()
        const isClear = (ms: number) => whyNotAt(gate, i, new Date(ms)) === null
        const count = Math.max(0, (comesMs - fromAt.getTime()) / 60_000 - 1)
        const minutes = Array.from({ length: count }, (_, k) => fromAt.getTime() + (k + 1) * 60_000)
        expect(minutes.filter((ms) => isClear(ms) && isClear(ms - 2000))).toEqual([])
      }),
      { numRuns: 100 },
    )
  })
})
