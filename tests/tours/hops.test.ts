import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Desk } from '../../server/desk/desk.ts'
import type { FinderQuestion } from '../../server/desk/finder.ts'
import { degrees, radians, separationDeg, wrap180, wrap360 } from '../../server/sky/angles.ts'
import { greenwichSiderealDeg, instantOf } from '../../server/sky/engine.ts'
import type { Horizontal } from '../../server/sky/horizontal.ts'
import { starOfDate } from '../../server/sky/star.ts'
import type { Hops } from '../../server/tours/hops.ts'
import { isWayClear } from '../../server/tours/hops-star.ts'
import { placeOf, type Site } from '../../server/tours/site.ts'
import { skylineAt } from '../../server/tours/skyline.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'
import { goodMoments, NORTHERN, SOUTHERN, WOODED } from '../support/finder-data.ts'

const folder = freshFolder()
let desk: Desk
beforeAll(async () => {
  desk = await openDesk(folder)
  ways = everyWay([NORTHERN, SOUTHERN])
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

const found = (given: Partial<FinderQuestion> & { key: string; at: Date }) =>
  desk.charts.finder({ site: NORTHERN, mainFieldDeg: 1, ...given })

function hopsOf(given: Parameters<typeof found>[0]): Hops {
  const { way } = found(given)
  if (way.kind !== 'hops') throw new Error(`${given.key} has no hops`)
  return way
}

/** Every so many; EVERY=1 looks at the whole list. */
const EVERY = Number(process.env.EVERY ?? 3)

/** What stands well up on some night, with the way to it. */
const everyWay = (sites: readonly Site[]) =>
  goodMoments(sites)
    .filter((_, index) => index % EVERY === 0)
    .map(({ object, ...moment }) => ({ object, ...moment, ...found({ key: object.key, ...moment }) }))
let ways: ReturnType<typeof everyWay> = []

describe('the way to a thing from star to star', () => {
  it('exists for nearly everything on the list, in at most four hops from a bright star', () => {
    const without = ways.filter(({ way }) => way.kind === 'none').map(({ object }) => object.key)
    expect(ways.length).toBeGreaterThan(200 / EVERY)
    expect(without.length).toBeLessThan(ways.length * 0.05)
    for (const { object, way } of ways) {
      if (way.kind !== 'hops') continue
      expect(way.hops.length, object.key).toBeLessThanOrEqual(4)
      expect(way.start.magnitude, object.key).toBeLessThanOrEqual(3.2)
      expect(way.start.name !== null || way.start.isBrightest, object.key).toBe(true)
      for (const hop of way.hops.filter(({ isByEye }) => !isByEye))
        expect(hop.distanceDeg / 5, object.key).toBeLessThanOrEqual(1.6)
    }
  })

  it('leads over stars that nobody takes for their neighbours', () => {
    for (const { object, way, stars } of ways) {
      if (way.kind !== 'hops') continue
      for (const { toward } of way.hops) {
        if (toward === null) continue
        const { altitudeDeg, azimuthDeg } = toward.direction
        const apart = ({ direction }: typeof toward) =>
          separationDeg(direction.azimuthDeg, direction.altitudeDeg, azimuthDeg, altitudeDeg)
        const rivals = stars.filter((star) => apart(star) > 0.1 && apart(star) < 1.25)
        for (const rival of rivals) expect(rival.magnitude - toward.magnitude, object.key).toBeGreaterThanOrEqual(0.5)
      }
    }
  })

  it('sees a mast of two degrees that stands before a hop, wherever on the hop it stands', () => {
    const [one, other] = [60, 100].map((azimuthDeg) => ({ azimuthDeg, altitudeDeg: 20 }))
    if (!one || !other) throw new Error('Two places')
    const isClear = (azimuthDeg: number) => {
      const edge = (offDeg: number, altitudeDeg: number) => ({ azimuthDeg: azimuthDeg + offDeg, altitudeDeg, name: '' })
      const horizon = [edge(-1, 0), edge(-0.9, 60), edge(0.9, 60), edge(1, 0)]
      return isWayClear(one, other, { site: { horizon }, finderFieldDeg: 5 })
    }
    for (let azimuthDeg = 62; azimuthDeg <= 98; azimuthDeg++) expect(isClear(azimuthDeg), `${azimuthDeg}`).toBe(false)
    expect([isClear(57), isClear(103)]).toEqual([true, true])
  })

  it('passes nothing that stands behind trees', () => {
    const wooded = everyWay([WOODED])
    let passed = 0
    for (const { way, target } of wooded) {
      if (way.kind !== 'hops') continue
      for (const { from, toward } of way.hops)
        for (const { altitudeDeg, azimuthDeg } of between(from.direction, (toward ?? target).direction)) {
          expect(altitudeDeg).toBeGreaterThan(skylineAt(WOODED.horizon, azimuthDeg).altitudeDeg)
          passed++
        }
    }
    expect(passed).toBeGreaterThan(1000 / EVERY)
    expect(wooded.filter(({ way }) => way.kind === 'none').length).toBeLessThan(wooded.length * 0.05)
  })

  it('says how far and toward which hour, as separations and position angles of the date have it', () => {
    let compared = 0
    for (const { object, way, at, site } of ways.filter((_, index) => index % 4 === 0)) {
      if (way.kind !== 'hops') continue
      const { hops, frame } = way
      const last = hops.at(-1)
      const star = last && desk.objects.find(last.from.key).object
      if (!last || star?.raDeg == null || star.decDeg === null || object.raDeg === null || object.decDeg === null)
        continue
      const rest = { pmRaMasYr: 0, pmDecMasYr: 0, parallaxMas: 0 }
      const from = starOfDate({ ...rest, ...star, raDeg: star.raDeg, decDeg: star.decDeg }, at)
      const to = starOfDate({ ...rest, ...object, raDeg: object.raDeg, decDeg: object.decDeg }, at)
      expect(last.distanceDeg).toBeCloseTo(separationDeg(from.raDeg, from.decDeg, to.raDeg, to.decDeg), 1)
      const { latitudeDeg, longitudeDeg } = placeOf(site)
      const turnDeg = greenwichSiderealDeg(instantOf(at)) + longitudeDeg - from.raDeg
      const clockDeg = parallacticDeg(turnDeg, from.decDeg, latitudeDeg) - positionDeg(from, to)
      const { altitudeDeg, azimuthDeg } = last.from.direction
      const leanDeg = wrap180(frame.middle.azimuthDeg - azimuthDeg) * Math.sin(radians(altitudeDeg))
      if (altitudeDeg > 70 || Math.abs(leanDeg) > 15) continue
      expect(Math.abs(wrap180(clockDeg + leanDeg - 30 * last.clockHour)), object.key).toBeLessThan(17)
      compared++
    }
    expect(compared).toBeGreaterThan(25)
  })

  it('turns by half a clock from the north to the south of the Earth', () => {
    // At its highest M 42 stands in the south over one site and in the north over the other.
    const at = new Date('2027-01-12T21:30:00Z')
    const north = hopsOf({ key: 'm42', at, site: { ...NORTHERN, latitudeDeg: 45 } })
    const south = hopsOf({ key: 'm42', at, site: { ...NORTHERN, latitudeDeg: -45 } })
    expect(south.start.key).toBe(north.start.key)
    const hours = [north, south].map(({ hops }) => hops[0]?.clockHour ?? 0)
    expect(hours).toEqual([5, 11])
  })

  it('is one hop from a bright star within one field, and from Vega by way of one star to the Ring Nebula', () => {
    const enif = hopsOf({ key: 'm15', at: new Date('2026-10-12T19:30:00Z') })
    expect(enif).toMatchObject({ start: { name: 'Enif' }, hops: [{ fields: 1 }] })
    const ring = hopsOf({ key: 'm57', at: new Date('2026-09-12T19:30:00Z') })
    expect(ring.hops.map(({ from }) => from.name)).toEqual(['Vega', 'Sheliak'])
    expect(ring.hops.map(({ fields }) => fields)).toEqual([1, 0])
  })

  it('needs no hop to what everybody sees, and one by eye to a star of the third magnitude', () => {
    const at = new Date('2027-03-12T20:00:00Z')
    expect(found({ key: 'jupiter', at }).way.kind).toBe('eyes')
    expect(found({ key: 'm45', at: new Date('2026-11-12T19:30:00Z') }).way.kind).toBe('eyes')
    const albireo = hopsOf({ key: 'Albireo', at: new Date('2026-09-12T19:30:00Z') })
    expect(albireo.hops).toHaveLength(1)
    expect(albireo.hops[0]).toMatchObject({ isByEye: true, from: { name: 'Vega' } })
  })

  it('tells why there is none: set, too low, or behind a tree', () => {
    const causeOf = (given: Parameters<typeof found>[0]) => {
      const { way } = found(given)
      return way.kind === 'none' ? way.cause : null
    }
    const at = new Date('2026-09-12T19:30:00Z')
    expect(causeOf({ key: 'm42', at })).toEqual({ code: 'set' })
    expect(causeOf({ key: 'm6', at })).toEqual({ code: 'low' })
    const wall = { ...NORTHERN, horizon: [{ azimuthDeg: 0, altitudeDeg: 60, name: 'wall' }] }
    expect(causeOf({ key: 'm22', at, site: wall })).toEqual({ code: 'skyline', name: 'wall' })
  })
})

/** Places on the way from one to another, near enough to each other that a straight step is the sky's. */
const between = (one: Horizontal, other: Horizontal): readonly Horizontal[] =>
  [0.2, 0.4, 0.6, 0.8].map((share) => ({
    altitudeDeg: one.altitudeDeg + share * (other.altitudeDeg - one.altitudeDeg),
    azimuthDeg: one.azimuthDeg + share * wrap180(other.azimuthDeg - one.azimuthDeg),
  }))

/** Of the zenith, from north through east (Meeus, 2nd ed., eq. 14.1, whose angle counts to the west). */
const parallacticDeg = (turnDeg: number, decDeg: number, latitudeDeg: number): number => {
  const [turn, dec, latitude] = [radians(turnDeg), radians(decDeg), radians(latitudeDeg)]
  return degrees(Math.atan2(Math.sin(turn), Math.tan(latitude) * Math.cos(dec) - Math.sin(dec) * Math.cos(turn)))
}

/** From north through east, by the four-part formula. */
function positionDeg(from: { raDeg: number; decDeg: number }, to: { raDeg: number; decDeg: number }): number {
  const turn = radians(to.raDeg - from.raDeg)
  const [dec, other] = [radians(from.decDeg), radians(to.decDeg)]
  return wrap360(degrees(Math.atan2(Math.sin(turn), Math.cos(dec) * Math.tan(other) - Math.sin(dec) * Math.cos(turn))))
}
