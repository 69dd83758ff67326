import { describe, expect, it } from 'vitest'
import { fieldDrawing } from '../../server/drawings/field.ts'
import { tubeView } from '../../server/sight/orientation.ts'
import { bodyLook } from '../../server/sky/body.ts'
import type { Place } from '../../server/sky/place.ts'
import { starHorizontal, starOfDate } from '../../server/sky/star.ts'
import { anglesOfDate, zenithAngleDeg } from '../../server/sky/zenith-angle.ts'
import type { Tube } from '../../server/tours/telescope.ts'
import {
  BONN,
  CAPE_TOWN,
  directionOnPaper,
  drawnFieldOf,
  fieldSubject,
  NEWTONIAN,
  STRAIGHT,
  turnBetween,
  viewWith,
  WITH_DIAGONAL,
} from '../support/field-views.ts'
import { ENGLISH } from '../support/page-data.ts'

const AT = new Date('2026-11-20T18:30:00Z')
const still = { pmRaMasYr: 0, pmDecMasYr: 0, parallaxMas: 0 }
const degrees = (angleRad: number) => (angleRad * 180) / Math.PI

/** Which way a place of the sky moves before bare eyes that look at it, in degrees clockwise from up. */
function movesDeg(star: { raDeg: number; decDeg: number }, at: Date, place: Place): number {
  const then = new Date(at.getTime() + 20_000)
  const [one, other] = [at, then].map((it) => starHorizontal({ ...star, ...still }, it, place))
  if (!one || !other) throw new Error('Two places')
  const right = (other.azimuthDeg - one.azimuthDeg) * Math.cos((one.altitudeDeg * Math.PI) / 180)
  return degrees(Math.atan2(right, other.altitudeDeg - one.altitudeDeg))
}

const PLACES = [
  ['in the south of Bonn', { raDeg: 350, decDeg: 5 }, BONN],
  ['in the east of Bonn', { raDeg: 56.75, decDeg: 24.1 }, BONN],
  ['in the west of Bonn', { raDeg: 283.4, decDeg: 33 }, BONN],
  ['under the pole at Bonn', { raDeg: 180, decDeg: 70 }, BONN],
  ['in the north of Cape Town', { raDeg: 10.7, decDeg: 10 }, CAPE_TOWN],
  ['in the south of Cape Town', { raDeg: 350, decDeg: -75 }, CAPE_TOWN],
] as const

describe('how a field is turned', () => {
  it('is decided by the tube', () => {
    expect(tubeView(NEWTONIAN)).toEqual({ code: 'turned', turnedDeg: 180, isMirrored: false })
    expect(tubeView({ ...NEWTONIAN, hasDiagonal: true }).code).toBe('turned')
    expect(tubeView(STRAIGHT)).toEqual({ code: 'turned', turnedDeg: 180, isMirrored: false })
    expect(tubeView(WITH_DIAGONAL)).toEqual({ code: 'mirrored', turnedDeg: 0, isMirrored: true })
    expect(tubeView({ design: 'catadioptric', hasDiagonal: true }).isMirrored).toBe(true)
  })

  it.each(PLACES)('sends things out where they move before bare eyes, %s', (_where, star, place) => {
    const moves = movesDeg(star, AT, place)
    const driftOf = (tube: Tube) =>
      drawnFieldOf({ ...star, kind: 'star' }, { at: AT, place, views: [viewWith(tube, 1)] }).circle.driftDeg
    expect(turnBetween(driftOf(NEWTONIAN), moves + 180)).toBeLessThan(0.5)
    expect(turnBetween(driftOf(STRAIGHT), moves + 180)).toBeLessThan(0.5)
    expect(turnBetween(driftOf(WITH_DIAGONAL), -moves)).toBeLessThan(0.5)
  })

  it.each(PLACES)('counts the angle of the zenith so that this is the steepest way up, %s', (_where, star, place) => {
    const zenithDeg = (anglesOfDate(star, AT, place).zenithDeg * Math.PI) / 180
    const step = 0.01
    const moved = {
      raDeg: star.raDeg + (step * Math.sin(zenithDeg)) / Math.cos((star.decDeg * Math.PI) / 180),
      decDeg: star.decDeg + step * Math.cos(zenithDeg),
      ...still,
    }
    const up =
      starHorizontal(moved, AT, place).altitudeDeg - starHorizontal({ ...star, ...still }, AT, place).altitudeDeg
    expect(up / step).toBeGreaterThan(0.999)
  })

  it('counts from the north of the date for what has a place of the date: at the Pole Star that differs by degrees', () => {
    for (const star of [
      { raDeg: 37.95, decDeg: 89.264 },
      { raDeg: 56.75, decDeg: 24.1 },
    ]) {
      const { zenithDeg, poleDeg } = anglesOfDate(star, AT, BONN)
      const ofDate = zenithAngleDeg(starOfDate({ ...star, ...still }, AT), AT, BONN)
      // Aberration moves a star by 20", half a degree of turn so near the pole.
      expect(turnBetween(ofDate, zenithDeg - poleDeg)).toBeLessThan(0.6)
      expect(turnBetween(poleDeg, 0) > 3).toBe(star.decDeg > 89)
    }
    const { circle } = drawnFieldOf({ raDeg: 37.95, decDeg: 89.264, kind: 'star' }, { at: AT })
    expect(turnBetween(circle.driftDeg, movesDeg({ raDeg: 37.95, decDeg: 89.264 }, AT, BONN) + 180)).toBeLessThan(0.5)
  })

  it('sends a planet out where it moves before bare eyes', () => {
    const at = new Date('2026-12-20T22:30:00Z')
    const [one, other] = [0, 20_000].map((ms) => bodyLook('jupiter', new Date(at.getTime() + ms), BONN))
    if (!one || !other) throw new Error('Two places')
    const right = (other.azimuthDeg - one.azimuthDeg) * Math.cos((one.altitudeDeg * Math.PI) / 180)
    const moves = degrees(Math.atan2(right, other.altitudeDeg - one.altitudeDeg))
    const { circle } = drawnFieldOf({ key: 'jupiter', kind: 'planet', body: 'jupiter' }, { at })
    expect(turnBetween(circle.driftDeg, moves + 180)).toBeLessThan(0.5)
  })

  // Bonn, due south: north is up and west is right to bare eyes.
  const SOUTH = { raDeg: 357.05, decDeg: 5 }
  const around = [
    { raDeg: SOUTH.raDeg, decDeg: SOUTH.decDeg + 0.3, magnitude: 5 },
    { raDeg: SOUTH.raDeg - 0.3, decDeg: SOUTH.decDeg, magnitude: 6 },
  ]
  it.each([
    ['a reflector: north below, west left', NEWTONIAN, 180, -90],
    ['a refractor without a diagonal: north below, west left', STRAIGHT, 180, -90],
    ['a refractor with a diagonal: north above, west left', WITH_DIAGONAL, 0, -90],
  ] as const)('shows in %s', (_what, tube, northDeg, westDeg) => {
    const at = new Date('2026-11-20T19:20:00Z')
    const { circle } = drawnFieldOf({ ...SOUTH, kind: 'star' }, { at, views: [viewWith(tube, 1)], stars: around })
    const starOf = (magnitude: number) => circle.drawn.stars.find((it) => it.magnitude === magnitude) ?? { x: 0, y: 0 }
    expect(turnBetween(directionOnPaper(circle, starOf(5)), northDeg)).toBeLessThan(8)
    expect(turnBetween(directionOnPaper(circle, starOf(6)), westDeg)).toBeLessThan(8)
    expect(turnBetween(directionOnPaper(circle, starOf(5)), circle.northDeg)).toBeLessThan(0.5)
    expect(turnBetween(directionOnPaper(circle, starOf(6)), circle.driftDeg)).toBeLessThan(0.5)
  })

  it.each([NEWTONIAN, WITH_DIAGONAL])('leans a long glow by its angle from north through east', (tube) => {
    const galaxy = { kind: 'galaxy', raDeg: 10.7, decDeg: 41.3, majorArcmin: 30, minorArcmin: 6, angleDeg: 35 } as const
    const { circle, svg } = drawnFieldOf(galaxy, { views: [viewWith(tube, 1)] })
    const [ellipse] = circle.drawn.ellipses
    const clockwise = -(ellipse?.angleDeg ?? 0)
    const side = circle.isMirrored ? 1 : -1
    expect(turnBetween(2 * clockwise, 2 * (circle.northDeg + side * 35))).toBeLessThan(1)
    const dots = [...svg.matchAll(/M([\d.-]+) ([\d.-]+)h/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }))
    const far = dots.filter((dot) => Math.hypot(dot.x - circle.x, dot.y - circle.y) > 45)
    expect(far.length).toBeGreaterThan(5)
    for (const dot of far) expect(turnBetween(2 * directionOnPaper(circle, dot), 2 * clockwise)).toBeLessThan(40)
  })

  it('says in words how it is turned', () => {
    const said = (tube: Tube) =>
      fieldDrawing(fieldSubject({ kind: 'star' }, { views: [viewWith(tube, 1)] }), ENGLISH)?.svg
    expect(said(NEWTONIAN)).toContain('Upside down: turned by half a turn</text>')
    expect(said(WITH_DIAGONAL)).toContain('Upright; left and right swapped</text>')
  })
})
