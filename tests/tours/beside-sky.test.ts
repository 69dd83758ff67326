import { describe, expect, it } from 'vitest'
import { bareEyes } from '../../server/tours/beside-aids.ts'
import { bandPlace } from '../../server/tours/beside-glows.ts'
import { meteorSeen, meteorsPerHour, perHourFor, showerShare } from '../../server/tours/beside-meteors.ts'
import { wideCause, wideWhyNot } from '../../server/tours/beside-pattern.ts'
import { eveningSky } from '../../server/tours/evening.ts'
import { instantOf } from '../../server/tours/hours.ts'
import { stepAt } from '../../server/tours/sky-at.ts'
import type { Shower } from '../../server/tours/target.ts'
import { besideOf, EVERYTHING, linesOf, withBeside } from '../support/beside-night.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'

describe('the Milky Way', () => {
  it('lies where it lies (J2000.0, from memory)', () => {
    expect(bandPlace(0).raDeg).toBeCloseTo(266.405, 2)
    expect(bandPlace(0).decDeg).toBeCloseTo(-28.936, 2)
    expect(bandPlace(90).raDeg).toBeCloseTo(318.004, 1)
    expect(bandPlace(90).decDeg).toBeCloseTo(48.33, 1)
    expect(bandPlace(180).raDeg).toBeCloseTo(86.405, 2)
    expect(bandPlace(180).decDeg).toBeCloseTo(28.936, 2)
  })

  it('is pointed at from a dark place without a Moon, not from a town', () => {
    const shownUnder = (skyMag: number) =>
      linesOf(
        besideOf(
          withBeside({ ...southernNight, date: '2027-07-03', site: { ...southernNight.site, skyMag } }, ['bare-eye']),
        ),
        'sight',
      ).filter(({ line }) => line.targetKey.startsWith('eye-milky-way'))
    expect(shownUnder(21.7).length).toBeGreaterThan(0)
    expect(shownUnder(19)).toEqual([])
  })
})

describe('shooting stars', () => {
  const GEMINIDS = EVERYTHING.find(({ key }) => key === 'shower-gem')?.shower as Shower
  const overhead = { altitudeDeg: 90, azimuthDeg: 0, sunAltitudeDeg: -40, sunSeparationDeg: 120, moon: null }
  const best = { ...demoNight, site: { ...demoNight.site, skyMag: 22, glow: [] } }

  it('fall as often as their rate says at the peak, and a twentieth of that on the last day', () => {
    const peak = new Date('2026-12-14T14:00:00Z')
    expect(showerShare(GEMINIDS, peak)).toBeGreaterThan(0.97)
    expect(showerShare(GEMINIDS, new Date('2026-12-19T23:00:00Z'))).toBeLessThan(0.08)
    expect(showerShare(GEMINIDS, new Date('2026-12-22T00:00:00Z'))).toBe(0)
    expect(showerShare(GEMINIDS, new Date('2026-07-01T00:00:00Z'))).toBe(0)
  })

  it('are fewer with a low radiant and in a bright sky, and never more than the rate', () => {
    const aid = bareEyes(best)
    const rate = (radiantDeg: number, night = best) => meteorsPerHour(120, radiantDeg, overhead, bareEyes(night))
    expect(
      meteorsPerHour(120, 90, overhead, { ...aid, conditions: { ...aid.conditions, noviceFactor: 1 } }),
    ).toBeLessThanOrEqual(120)
    expect(rate(30) / rate(90)).toBeCloseTo(0.5, 5)
    expect(rate(90, { ...best, site: { ...best.site, skyMag: 18 } })).toBeLessThan(rate(90) / 2)
    expect(perHourFor(meteorSeen(12).chance)).toBeCloseTo(12, 6)
  })

  it('are looked for on their nights alone', () => {
    const lookedFor = (date: string, skyMag: number) =>
      linesOf(
        besideOf(withBeside({ ...demoNight, date, opens: '20:00', site: { ...demoNight.site, skyMag } }, ['bare-eye'])),
        'sight',
      )
        .map(({ line }) => line)
        .filter(({ targetKey }) => targetKey.startsWith('shower-'))
    const [line] = lookedFor('2026-12-13', 21.5)
    expect(line?.targetKey).toBe('shower-gem')
    expect(line?.remarks[0]?.code).toBe('beside.meteors')
    expect(Number(line?.remarks[0]?.values?.count)).toBeGreaterThanOrEqual(6)
    expect(lookedFor('2026-12-13', 18)).toEqual([])
    expect(lookedFor('2026-11-20', 21.5)).toEqual([])
  })
})

describe('a wide pattern', () => {
  const site = (...corners: readonly (readonly [number, number])[]) => ({
    horizon: corners.map(([azimuthDeg, altitudeDeg]) => ({ azimuthDeg, altitudeDeg, name: 'mast' })),
  })
  const mount = { floorDeg: 0, ceilingDeg: 90 }
  const middle = { altitudeDeg: 35, azimuthDeg: 180 }

  it('is clear where the whole of it is', () => {
    expect(wideCause(middle, 15, { site: site(), mount })).toBeNull()
    expect(wideCause(middle, 26, { site: site(), mount })).toEqual({ code: 'low' })
    expect(wideCause(middle, 15, { site: site([0, 5], [90, 25], [180, 25], [270, 25]), mount })).toEqual({
      code: 'skyline',
      name: 'mast',
    })
  })

  it('is not clear of a mast that stands in it between two points of its rim', () => {
    const narrow = site([0, 2], [182.5, 2], [183, 30], [183.5, 2])
    expect(wideCause(middle, 15, { site: narrow, mount })).toEqual({ code: 'skyline', name: 'mast' })
    expect(wideCause(middle, 4, { site: narrow, mount })).toBeNull()
  })

  it('is held back by the Sun', () => {
    const night = { ...demoNight, date: '2026-06-20' }
    const dipper = EVERYTHING.filter(({ key }) => key === 'asterism-big-dipper')
    const sky = eveningSky(night, dipper)
    const whyNot = wideWhyNot({ sky, site: site(), mount }, 0, 13.5)
    const at = (time: string) => whyNot(stepAt(sky, instantOf(night, time)))
    expect([at('20:00'), at('23:00')]).toEqual([{ code: 'sun' }, null])
  })

  it('keeps to the ceiling with its middle alone', () => {
    expect(
      wideCause({ altitudeDeg: 70, azimuthDeg: 0 }, 15, { site: site(), mount: { ...mount, ceilingDeg: 75 } }),
    ).toBeNull()
    expect(
      wideCause({ altitudeDeg: 76, azimuthDeg: 0 }, 15, { site: site(), mount: { ...mount, ceilingDeg: 75 } }),
    ).toEqual({
      code: 'high',
    })
  })
})
