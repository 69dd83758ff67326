import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { skyChart } from '../../server/drawings/sky-chart.ts'
import { separationDeg } from '../../server/sky/angles.ts'
import { bodyLook } from '../../server/sky/body.ts'
import { apparentAltitudeDeg } from '../../server/sky/refraction.ts'
import { starHorizontal } from '../../server/sky/star.ts'
import type { Night } from '../../server/tours/night.ts'
import { placeOf } from '../../server/tours/site.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'
import { SLOW_MS } from '../support/desk-folder.ts'
import { ENGLISH } from '../support/page-data.ts'
import { chartSource } from '../support/sky-chart-data.ts'

let source: ReturnType<typeof chartSource>
beforeAll(() => {
  source = chartSource()
}, SLOW_MS)
afterAll(() => source.close())

const NORTH_AT = new Date('2026-12-17T18:00:00Z')
const SOUTH_AT = new Date('2027-07-10T09:00:00Z')
const KEYS = ['moon', 'saturn', 'm45', 'm42']
const draw = (night: Night, at: Date, keys: readonly string[] = KEYS) =>
  skyChart(source.subject(night, at, keys), ENGLISH)
const withSite = (night: Night, site: Partial<Night['site']>): Night => ({ ...night, site: { ...night.site, ...site } })

describe('the chart of the whole sky', () => {
  it.each([
    ['north', demoNight, NORTH_AT],
    ['south', southernNight, SOUTH_AT],
  ])('draws stars of the %s where the sky has them', (_name, night, at) => {
    const { stars, skyAt } = draw(night, at)
    const places = new Map(source.objects.stars(5).map((star) => [star.hip, star]))
    expect(stars.length).toBeGreaterThan(100)
    const step = Math.floor(stars.length / 50)
    const tried = stars.filter((_, index) => index % step === 0)
    expect(tried.length).toBeGreaterThanOrEqual(50)
    for (const { hip, x, y } of tried) {
      const star = places.get(hip)
      if (!star) throw new Error(`No star ${hip}`)
      const { altitudeDeg, azimuthDeg } = starHorizontal(star, at, placeOf(night.site))
      const drawn = skyAt(x, y)
      const apart = separationDeg(azimuthDeg, apparentAltitudeDeg(altitudeDeg), drawn.azimuthDeg, drawn.altitudeDeg)
      expect(apart, `hip${hip}`).toBeLessThan(0.2)
    }
  })

  it('draws Moon and planets where the sky has them', () => {
    const { bodies, skyAt } = draw(demoNight, NORTH_AT)
    expect(bodies.map(({ body }) => body)).toEqual(expect.arrayContaining(['moon', 'saturn']))
    for (const { body, x, y } of bodies) {
      const look = bodyLook(body, NORTH_AT, placeOf(demoNight.site))
      const drawn = skyAt(x, y)
      const seenDeg = apparentAltitudeDeg(look.altitudeDeg)
      expect(separationDeg(look.azimuthDeg, seenDeg, drawn.azimuthDeg, drawn.altitudeDeg)).toBeLessThan(0.2)
    }
  })

  it('has equal lengths for equal angles from overhead to the level horizon', () => {
    const { place, radiusPx } = draw(demoNight, NORTH_AT)
    const [x, y] = place(90, 0)
    const awayPx = (altitudeDeg: number): number => {
      const [farX, farY] = place(altitudeDeg, 123)
      return Math.hypot(farX - x, farY - y)
    }
    expect(awayPx(0)).toBeCloseTo(radiusPx, 6)
    expect(awayPx(30)).toBeCloseTo((2 * radiusPx) / 3, 6)
  })

  it('is held overhead: north up has east on the left, and south is at the bottom', () => {
    const { place, facingDeg } = draw(demoNight, NORTH_AT)
    const [middle, north, east, south] = [place(90, 0), place(0, 0), place(0, 90), place(0, 180)]
    expect(facingDeg).toBe(180)
    expect(north[1]).toBeLessThan(middle[1])
    expect(south[1]).toBeGreaterThan(middle[1])
    expect(east[0]).toBeLessThan(middle[0])
    expect(east[1]).toBeCloseTo(middle[1], 6)
  })

  it('faces north south of the equator, with east on the right', () => {
    const { place, facingDeg } = draw(southernNight, SOUTH_AT)
    expect(facingDeg).toBe(0)
    expect(place(0, 0)[1]).toBeGreaterThan(place(90, 0)[1])
    expect(place(0, 90)[0]).toBeGreaterThan(place(90, 0)[0])
  })

  it.each([
    ['evening', NORTH_AT, 'right'],
    ['morning', new Date('2026-12-31T05:00:00Z'), 'left'],
  ])('turns the lit side of the Moon to where the Sun is in the %s', (_name, at, side) => {
    const moon = draw(demoNight, at).bodies.find(({ body }) => body === 'moon')
    const right = Math.sin(((moon?.litAngleDeg ?? 0) * Math.PI) / 180)
    expect(side === 'right' ? right : -right).toBeGreaterThan(0.5)
  })

  it('makes brighter stars larger, and has fewer under a brighter sky or in twilight', () => {
    const at = new Date('2026-12-20T03:00:00Z')
    const dark = draw(withSite(demoNight, { skyMag: 21.8 }), at)
    const city = draw(withSite(demoNight, { skyMag: 17.5 }), at)
    const dawn = draw(withSite(demoNight, { skyMag: 21.8 }), new Date('2026-12-20T06:15:00Z'))
    expect(city.stars.length).toBeLessThan(0.6 * dark.stars.length)
    expect(dawn.stars.length).toBeLessThan(city.stars.length)
    expect(dark.stars.length).toBeLessThan(700)
    const sizes = dark.stars.toSorted((a, b) => a.magnitude - b.magnitude).map(({ radiusPx }) => radiusPx)
    expect(sizes).toEqual([...sizes].sort((a, b) => b - a))
    expect(sizes[0]).toBeGreaterThan(4 * (sizes.at(-1) ?? 0))
  })

  it('keeps every line of a figure on the sky', () => {
    const { strokes, skyAt } = draw(demoNight, NORTH_AT)
    expect(strokes.length).toBeGreaterThan(60)
    for (const [x, y] of strokes.flatMap(({ from, to }) => [from, to]))
      expect(skyAt(x, y).altitudeDeg).toBeGreaterThan(-0.1)
  })
})
