import { describe, expect, it } from 'vitest'
import { eveningSky } from '../../server/tours/evening.ts'
import { instantOf } from '../../server/tours/hours.ts'
import { comesAt, leaveBy, placeCause, sunCause, whyNotOf } from '../../server/tours/offered.ts'
import { stepAt, targetAt } from '../../server/tours/sky-at.ts'
import { skylineAt } from '../../server/tours/skyline.ts'
import { seenPlace } from '../support/checker-sky.ts'
import { demoNight } from '../support/demo-night.ts'
import { showObject } from '../support/show-objects.ts'

const horizon = [
  { azimuthDeg: 350, altitudeDeg: 8, name: 'houses' },
  { azimuthDeg: 10, altitudeDeg: 12, name: 'oak' },
  { azimuthDeg: 180, altitudeDeg: 4, name: '' },
]
const mount = { floorDeg: 5, ceilingDeg: 80 }

describe('the skyline', () => {
  it('runs straight between its points, also through north', () => {
    expect(skylineAt(horizon, 0).altitudeDeg).toBeCloseTo(10, 9)
    expect(skylineAt(horizon, 355).altitudeDeg).toBeCloseTo(9, 9)
    expect(skylineAt(horizon, 370).altitudeDeg).toBe(12)
  })

  it('is named after the nearer point that has a name', () => {
    expect(skylineAt(horizon, 4).name).toBe('oak')
    expect(skylineAt(horizon, 356).name).toBe('houses')
    expect(skylineAt(horizon, 170).name).toBe('oak')
  })

  it('is level without points and everywhere as high as its only point', () => {
    expect(skylineAt([], 77)).toEqual({ altitudeDeg: 0, name: '' })
    expect(skylineAt([{ azimuthDeg: 90, altitudeDeg: 9, name: 'hedge' }], 270)).toEqual({
      altitudeDeg: 9,
      name: 'hedge',
    })
  })
})

describe('a thing is not offered', () => {
  const causeAt = (altitudeDeg: number, azimuthDeg: number) =>
    placeCause({ altitudeDeg, azimuthDeg }, { horizon }, mount)

  it('less than two degrees above the trees', () => {
    expect(causeAt(13.9, 10)).toEqual({ code: 'skyline', name: 'oak' })
    expect(causeAt(14.1, 10)).toBeNull()
  })

  it('under ten degrees, even over a meadow', () => {
    expect(causeAt(9.9, 180)).toEqual({ code: 'low' })
    expect(causeAt(10.1, 180)).toBeNull()
    expect(causeAt(-1, 180)).toEqual({ code: 'set' })
  })

  it('above the ceiling of its mount', () => {
    expect(causeAt(80.1, 180)).toEqual({ code: 'high' })
  })

  it('while any of the Sun is up, wherever in the sky it stands', () => {
    const sunAt = (altitudeDeg: number) => sunCause({ altitudeDeg, azimuthDeg: 240 })
    expect(sunAt(5)).toEqual({ code: 'sun' })
    expect(sunAt(-0.8)).toEqual({ code: 'sun' })
    expect(sunAt(-0.9)).toBeNull()
  })
})

describe('the sky of an evening', () => {
  const albireo = showObject({ key: 'albireo', raDeg: 292.68, decDeg: 27.96 })
  const moon = showObject({ key: 'moon', kind: 'moon', body: 'moon', raDeg: null, decDeg: null })
  const sky = eveningSky(demoNight, [albireo, moon])

  it('runs from two hours before sunset to sunrise in five minutes', () => {
    expect(sky.stepMin).toBe(5)
    expect(sky.startsAt.getTime()).toBeLessThanOrEqual((sky.events.sunsetAt?.getTime() ?? 0) - 7_200_000)
    const endMs = sky.startsAt.getTime() + (sky.count - 1) * 300_000
    expect(endMs).toBeGreaterThanOrEqual(sky.events.sunriseAt?.getTime() ?? 0)
  })

  it('agrees between its steps with the place of a single star and of the Moon to 0.02 degrees', () => {
    const at = new Date('2026-12-17T18:32:30Z')
    expect(Math.abs(targetAt(sky, 0, at).altitudeDeg - seenPlace(albireo, at, demoNight).altitudeDeg)).toBeLessThan(
      0.02,
    )
    expect(Math.abs(targetAt(sky, 1, at).altitudeDeg - seenPlace(moon, at, demoNight).altitudeDeg)).toBeLessThan(0.02)
  })

  it('says when a star goes behind the gym roof, good to the minute, and that it stays away', () => {
    const gate = { sky, site: demoNight.site, mount }
    const leave = leaveBy(sky, whyNotOf(gate, 0), instantOf(demoNight, '18:00'), instantOf(demoNight, '21:00'))
    if (leave === null) throw new Error('It never leaves')
    expect(leave.cause).toEqual({ code: 'skyline', name: 'gym roof' })
    expect(whyNotOf(gate, 0)(stepAt(sky, leave.at))).toBeNull()
    expect(whyNotOf(gate, 0)(stepAt(sky, new Date(leave.at.getTime() + 60_000)))).not.toBeNull()
    expect(
      comesAt(sky, whyNotOf(gate, 0), new Date(leave.at.getTime() + 60_000), instantOf(demoNight, '21:00')),
    ).toBeNull()
  })

  it('has an evening where the Sun never sets, and offers nothing in it', () => {
    const site = { ...demoNight.site, latitudeDeg: 70, zone: 'Europe/Oslo', horizon: [] }
    const bright = eveningSky({ ...demoNight, date: '2027-06-21', site }, [albireo])
    expect(bright.events.sunsetAt).toBeNull()
    expect(bright.count).toBe(18 * 12 + 1)
    expect(whyNotOf({ sky: bright, site, mount }, 0)(stepAt(bright, new Date('2027-06-21T22:00:00Z')))).toEqual({
      code: 'sun',
    })
  })
})
