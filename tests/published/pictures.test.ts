import { describe, expect, it } from 'vitest'
import type { MoonFeature } from '../../server/sight/moon-features.ts'
import { directionOnPaper, drawnFieldOf, turnBetween, viewWith, WITH_DIAGONAL } from '../support/field-views.ts'

const UNIX_EPOCH_JD = 2_440_587.5
const DECEMBER_1992 = new Date(Math.round((2_448_972.50068 - 59.184 / 86_400 - UNIX_EPOCH_JD) * 86_400_000))
const APRIL_1992 = new Date(Date.parse('1992-04-12T00:00:00Z') - 58_184)
const COPERNICUS_RISES = new Date(Date.parse('1992-04-11T00:00:00Z') + 0.8069 * 86_400_000 - 58_184)
const COPERNICUS: MoonFeature = {
  name: 'Copernicus',
  official: 'Copernicus',
  kind: 'peak-crater',
  longitudeDeg: -20,
  latitudeDeg: 9.7,
  diameterKm: 93,
  bestFromDeg: 0.02,
  bestToDeg: 20,
  see: '',
}
const MOON = { key: 'moon', kind: 'moon', body: 'moon', raDeg: null, decDeg: null, features: [COPERNICUS] } as const
const planet = (key: 'jupiter' | 'saturn' | 'venus') =>
  ({ key, kind: 'planet', body: key, raDeg: null, decDeg: null }) as const
const radians = (angleDeg: number) => (angleDeg * Math.PI) / 180

describe('Meeus, Astronomical Algorithms, 2nd ed., worked examples as they are drawn', () => {
  it.each([
    ['I', -3.4503, 0.2137],
    ['E', 7.4418, 0.2752],
    ['G', 1.201, 0.59],
    ['C', 7.072, 1.029],
  ] as const)('44.b: the moon %s stands in its place beside Jupiter, to 0.02 radii', (sign, west, north) => {
    const { circle } = drawnFieldOf(planet('jupiter'), { at: DECEMBER_1992 })
    for (const { discs, marks } of [circle.drawn, circle.inset?.drawn ?? circle.drawn]) {
      const [disc] = discs
      const mark = marks.find((it) => it.sign === sign)
      if (!disc || !mark) throw new Error('Jupiter is drawn')
      const axis = radians(disc.axisDeg)
      const right = (mark.x - disc.x) / disc.radiusPx
      const up = (disc.y - mark.y) / disc.radiusPx
      expect(Math.abs(right * Math.sin(axis) + up * Math.cos(axis) - north)).toBeLessThan(0.02)
      expect(Math.abs(right * Math.cos(axis) - up * Math.sin(axis) - west)).toBeLessThan(0.02)
    }
  })

  it('43.a: Jupiter leans by 24.80 degrees from north through east', () => {
    const { circle } = drawnFieldOf(planet('jupiter'), { at: DECEMBER_1992 })
    const [disc] = circle.drawn.discs
    expect(turnBetween(circle.northDeg - (disc?.axisDeg ?? 0), 24.8)).toBeLessThan(0.1)
    expect((disc?.polarPx ?? 0) / (disc?.radiusPx ?? 1)).toBeCloseTo(0.935, 3)
  })

  it('45.a: the ring of Saturn is 35.87" by 10.15" and leans by 6.741 degrees', () => {
    const { circle } = drawnFieldOf(planet('saturn'), { at: DECEMBER_1992 })
    const parts = [circle, circle.inset].flatMap((it) => (it === null ? [] : [it]))
    expect(parts).toHaveLength(2)
    for (const { drawn, pxPerArcmin } of parts) {
      const [ring] = drawn.ellipses
      if (!ring) throw new Error('The ring is drawn')
      expect((120 * ring.halfMajorPx) / pxPerArcmin).toBeCloseTo(35.87, 1)
      expect((120 * ring.halfMinorPx) / pxPerArcmin).toBeCloseTo(10.15, 1)
      const longClockwise = -ring.angleDeg
      expect(turnBetween(2 * (circle.northDeg - longClockwise), 2 * (90 + 6.741))).toBeLessThan(0.2)
    }
  })

  it('45.a: the near half of the ring lies before the south of the globe, whose north face is seen', () => {
    const { circle, svg } = drawnFieldOf(planet('saturn'), { at: DECEMBER_1992 })
    const [, points = ''] = [...svg.matchAll(/<polygon points="([^"]+)" fill="white"/g)].at(-1) ?? []
    const places = points.split(' ').map((it) => it.split(',').map(Number))
    const [disc] = circle.inset?.drawn.discs ?? []
    const mean = (at: 0 | 1) => places.reduce((sum, place) => sum + (place[at] ?? 0), 0) / places.length
    if (!disc) throw new Error('Saturn is drawn')
    expect(turnBetween(directionOnPaper(disc, { x: mean(0), y: mean(1) }), disc.axisDeg + 180)).toBeLessThan(3)
  })

  it('48.a: the bright limb of the Moon lies at 285.0 degrees, 0.6786 of its disc is lit', () => {
    for (const tube of [undefined, WITH_DIAGONAL]) {
      const { circle } = drawnFieldOf(MOON, { at: APRIL_1992, ...(tube && { views: [viewWith(tube, 1)] }) })
      const [disc] = circle.drawn.discs
      const leftward = (circle.isMirrored ? -1 : 1) * (circle.northDeg - (disc?.limbDeg ?? 0))
      expect(turnBetween(leftward, 285)).toBeLessThan(0.2)
      expect(Math.abs((disc?.litFraction ?? 0) - 0.6786)).toBeLessThan(0.002)
    }
  })

  const terminatorGap = (at: Date) => {
    const { circle } = drawnFieldOf(MOON, { at })
    const [disc] = circle.drawn.discs
    const mark = circle.drawn.marks.find(({ name }) => name === 'Copernicus')
    if (!disc || !mark) throw new Error('Copernicus is drawn')
    const gaps = disc.terminator.map(([x, y]) => Math.hypot(x - mark.x, y - mark.y) / disc.radiusPx)
    const off = radians(directionOnPaper(disc, mark) - disc.limbDeg)
    const far = Math.hypot(mark.x - disc.x, mark.y - disc.y) / disc.radiusPx
    const across = far * Math.sin(off)
    const line = (1 - 2 * disc.litFraction) * Math.sqrt(1 - across ** 2)
    return { nearest: Math.min(...gaps), sunward: far * Math.cos(off) - line }
  }

  it('53.c: Copernicus lies on the drawn line between day and night at its sunrise', () => {
    const { nearest, sunward } = terminatorGap(new Date(COPERNICUS_RISES.getTime() + 360_000))
    expect(nearest).toBeLessThan(0.04)
    expect(Math.abs(sunward)).toBeLessThan(0.003)
  })

  it('53.b: half a day later the Sun stands 2.318 degrees over it, and it lies so far on the lit side', () => {
    const { sunward } = terminatorGap(APRIL_1992)
    expect(sunward).toBeGreaterThan(0.025)
    expect(sunward).toBeLessThan(Math.sin(radians(2.318)) + 0.003)
  })

  it('41.a: 0.647 of Venus is lit', () => {
    const { circle } = drawnFieldOf(planet('venus'), { at: new Date(Date.parse('1992-12-20T00:00:00Z') - 59_184) })
    expect(circle.drawn.discs[0]?.litFraction).toBeCloseTo(0.647, 2)
  })
})
