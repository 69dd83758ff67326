import { describe, expect, it } from 'vitest'
import { fieldDrawing, starsForField } from '../../server/drawings/field.ts'
import { textPx } from '../../server/drawings/field-letters.ts'
import type { MoonFeature } from '../../server/sight/moon-features.ts'
import { jupiterMoons } from '../../server/sky/jupiter.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import {
  directionOnPaper,
  drawnFieldOf,
  fieldSubject,
  NEWTONIAN,
  turnBetween,
  viewWith,
  WITH_DIAGONAL,
} from '../support/field-views.ts'
import { ENGLISH } from '../support/page-data.ts'
import { showObject } from '../support/show-objects.ts'

const GLOBULAR = {
  key: 'm13',
  kind: 'globular',
  raDeg: 250.4,
  decDeg: 36.5,
  majorArcmin: 12,
  halfLightArcmin: 1.7,
} as const
const PAIR = {
  key: 'pair',
  kind: 'double',
  raDeg: 292.7,
  decDeg: 28,
  separationArcsec: 34.6,
  pairAngleDeg: 54,
  componentMagnitudes: [3.2, 5.1],
  colours: ['gold', 'blue'],
} as const
const body = (key: 'moon' | 'jupiter' | 'neptune' | 'venus' | 'sun', given: Partial<ShowObject> = {}) =>
  ({ key, kind: key === 'moon' ? 'moon' : 'planet', body: key, raDeg: null, decDeg: null, ...given }) as const
const dotsIn = (svg: string) =>
  [...svg.matchAll(/M([\d.-]+) ([\d.-]+)h/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }))

const crater = (name: string, longitudeDeg: number, latitudeDeg: number): MoonFeature => ({
  name,
  official: name,
  kind: 'crater',
  longitudeDeg,
  latitudeDeg,
  diameterKm: 100,
  bestFromDeg: 1,
  bestToDeg: 90,
  see: '',
})
const CRATERS = [crater('One', 20, 10), crater('Two', 5, -40), crater('Three', 60, 30)]
const KINDS: readonly Parameters<typeof drawnFieldOf>[0][] = [
  GLOBULAR,
  PAIR,
  { ...GLOBULAR, kind: 'planetary', majorArcmin: 0.05 },
  { ...GLOBULAR, kind: 'open-cluster', majorArcmin: 30, starCount: 60, brightestStarMag: 7 },
  { ...GLOBULAR, kind: 'galaxy', majorArcmin: 190, minorArcmin: 60, angleDeg: 35 },
  { kind: 'asterism', raDeg: 291, decDeg: 20, fieldDeg: 2 },
  body('moon', { features: CRATERS }),
  body('jupiter'),
  body('neptune'),
  body('venus'),
]

describe('the field of an eyepiece', () => {
  it.each([0.17, 0.5, 1.05, 3])('is a circle %d degrees wide, to the scale of what is in it', (trueFieldDeg) => {
    const { circle, svg } = drawnFieldOf(GLOBULAR, { views: [viewWith(NEWTONIAN, trueFieldDeg)] })
    expect((2 * circle.radiusPx) / circle.pxPerArcmin / 60 / trueFieldDeg).toBeCloseTo(1, 6)
    expect(svg).toContain(`<circle cx="${circle.x}" cy="${circle.y}" r="${circle.radiusPx}" fill="none"`)
    const [ellipse] = circle.drawn.ellipses
    expect(((ellipse?.halfMajorPx ?? 0) * 2) / circle.radiusPx / 2 / (12 / 60 / trueFieldDeg)).toBeCloseTo(1, 6)
  })

  it('fills a glow with dots out to its edge, and the circle where it is wider', () => {
    const { circle, svg } = drawnFieldOf({ ...GLOBULAR, kind: 'nebula', majorArcmin: 40 })
    const far = dotsIn(svg).map(({ x, y }) => Math.hypot(x - circle.x, y - circle.y) / circle.pxPerArcmin)
    expect(Math.max(...far)).toBeGreaterThan(18)
    expect(Math.max(...far)).toBeLessThan(20.2)
    const wide = drawnFieldOf({ ...GLOBULAR, kind: 'nebula', majorArcmin: 400 })
    const dots = dotsIn(wide.svg).map(({ x, y }) => Math.hypot(x - wide.circle.x, y - wide.circle.y))
    expect(dots.length).toBeGreaterThan(500)
    expect(Math.max(...dots)).toBeLessThan(wide.circle.radiusPx)
  })

  it('puts the stars of a pair at their distance and angle, and once more enlarged with their colours', () => {
    for (const tube of [NEWTONIAN, WITH_DIAGONAL]) {
      const { circle, svg } = drawnFieldOf(PAIR, { views: [viewWith(tube, 0.5)] })
      const parts = [circle, circle.inset].flatMap((it) => (it === null ? [] : [it]))
      expect(parts).toHaveLength(2)
      for (const { drawn, pxPerArcmin } of parts) {
        const [first, second] = drawn.stars
        if (!first || !second) throw new Error('Two stars')
        const apart = Math.hypot(second.x - first.x, second.y - first.y) / pxPerArcmin
        expect(60 * apart).toBeCloseTo(34.6, 6)
        const side = circle.isMirrored ? 1 : -1
        expect(turnBetween(directionOnPaper(first, second), circle.northDeg + side * 54)).toBeLessThan(0.01)
        expect(first.radiusPx).toBeGreaterThan(second.radiusPx)
      }
      expect((circle.inset?.pxPerArcmin ?? 0) / circle.pxPerArcmin).toBe(circle.inset?.times)
      expect(svg).toContain(`${circle.inset?.times} times larger</text>`)
      expect(svg).toMatch(/gold<\/text>.*blue<\/text>/)
    }
  })

  it('leaves the pair itself out of the stars around it, and what lies beyond the circle', () => {
    const star = (eastDeg: number, magnitude: number) => ({
      raDeg: PAIR.raDeg + eastDeg / Math.cos((28 * Math.PI) / 180),
      decDeg: PAIR.decDeg,
      magnitude,
    })
    const { circle } = drawnFieldOf(PAIR, { stars: [star(0, 3), star(0.3, 7), star(0.6, 6)] })
    expect(circle.drawn.stars.map(({ magnitude }) => magnitude)).toEqual([3.2, 5.1, 7])
    const [first, , third] = circle.drawn.stars
    expect(Math.hypot((third?.x ?? 0) - (first?.x ?? 0), (third?.y ?? 0) - (first?.y ?? 0))).toBeCloseTo(
      18 * circle.pxPerArcmin,
      1,
    )
  })

  it('shows two tubes side by side, each to its own scale and turned its own way', () => {
    const views = [viewWith(NEWTONIAN, 1), viewWith(WITH_DIAGONAL, 3)]
    const { circles, widthPx, svg } = drawnFieldOf(GLOBULAR, { views })
    expect(widthPx).toBe(850)
    expect(circles.map(({ trueFieldDeg, turnedDeg }) => [trueFieldDeg, turnedDeg])).toEqual([
      [1, 180],
      [3, 0],
    ])
    expect((circles[0]?.pxPerArcmin ?? 0) / (circles[1]?.pxPerArcmin ?? 1)).toBeCloseTo(3, 9)
    const ids = [...svg.matchAll(/<clipPath id="([^"]+)"/g)].map(([, id]) => id)
    expect(new Set(ids).size).toBe(2)
    expect(ids.every((id) => id?.startsWith('a-'))).toBe(true)
  })

  it('says when a thing is drawn larger than it is, and only then', () => {
    expect(drawnFieldOf(body('neptune')).notes.join(' ')).toContain('larger than it is')
    expect(drawnFieldOf(body('jupiter')).notes.join(' ')).not.toContain('larger than it is')
    expect(drawnFieldOf({ ...GLOBULAR, majorArcmin: 0.05 }).notes.join(' ')).toContain('larger than it is')
    expect(drawnFieldOf(PAIR).notes.join(' ')).not.toContain('larger than it is')
    expect(drawnFieldOf(PAIR).notes.join(' ')).toContain('larger than the gap')
  })

  it('tells of moons that hide, and names the others by letters', () => {
    const times = Array.from({ length: 400 }, (_, i) => new Date(Date.UTC(2026, 11, 1, i)))
    const at = times.find((it) => jupiterMoons(it).filter(({ isHidden }) => isHidden).length === 1)
    if (!at) throw new Error('A moon hides in sixteen days')
    const hidden = jupiterMoons(at).find(({ isHidden }) => isHidden)
    const { circle, notes, svg } = drawnFieldOf(body('jupiter'), { at })
    expect(notes.join(' ')).toContain(`${hidden?.name} is hidden`)
    expect(circle.inset?.drawn.marks.map(({ name }) => name)).not.toContain(hidden?.name)
    for (const { sign, name } of circle.inset?.drawn.marks ?? []) expect(svg).toContain(`${sign}: ${name}`)
  })

  it('holds the whole Moon, or turns to what stands at the edge of night', () => {
    const moon = body('moon', { features: CRATERS })
    const whole = drawnFieldOf(moon, { at: new Date('2026-11-17T18:00:00Z') })
    const [disc] = whole.circle.drawn.discs
    expect([disc?.x, disc?.y]).toEqual([whole.circle.x, whole.circle.y])
    expect(whole.circle.drawn.marks.length).toBeGreaterThan(1)
    const part = drawnFieldOf(moon, { at: new Date('2026-11-17T18:00:00Z'), views: [viewWith(NEWTONIAN, 0.2)] })
    const [first] = part.circle.drawn.marks
    expect(Math.hypot((first?.x ?? 0) - part.circle.x, (first?.y ?? 0) - part.circle.y)).toBeLessThan(0.01)
    expect(part.notes.join(' ')).toContain(`In its middle: ${first?.name}.`)
  })

  it('draws nothing of what no telescope shows', () => {
    for (const thing of [body('sun'), { kind: 'meteor-shower' } as const, { kind: 'galaxy' } as const])
      expect(fieldDrawing(fieldSubject(thing), ENGLISH)).toBeNull()
  })

  it('asks for the stars that its field holds, and for none around what wanders', () => {
    expect(starsForField(showObject(GLOBULAR), 3)).toEqual({ raDeg: 250.4, decDeg: 36.5, radiusDeg: 1.5, limitV: 8 })
    expect(starsForField(showObject(body('jupiter')), 3)).toBeNull()
  })

  it.each(KINDS)('is black on white, with letters that can be read, and all of it on the paper', (thing) => {
    const name = 'The name of a thing that is sixty letters long, nearly so <&>'
    for (const trueFieldDeg of [0.17, 1.05, 3]) {
      const view = {
        ...viewWith(WITH_DIAGONAL, trueFieldDeg),
        telescopeName: 'M'.repeat(60),
        eyepieceName: 'W'.repeat(40),
      }
      const { svg, widthPx, heightPx } = drawnFieldOf({ ...thing, name }, { views: [view] })
      const inks = [...svg.matchAll(/(?:fill|stroke)="([^"]+)"/g)].map(([, ink]) => ink)
      expect(inks.filter((ink) => !['currentColor', 'white', 'none'].includes(ink ?? ''))).toEqual([])
      expect(svg).not.toMatch(/opacity|style=|NaN|Infinity|undefined/)
      const texts = [
        ...svg.matchAll(/<text x="([\d.-]+)" y="([\d.-]+)" text-anchor="(\w+)" font-size="([\d.]+)"[^>]*>([^<]*)/g),
      ]
      expect(texts.length).toBeGreaterThan(6)
      for (const [, x, y, anchor, size, text = ''] of texts) {
        const mm = (Number(size) * 84) / widthPx
        expect(mm).toBeGreaterThan(4.23)
        const left = Number(x) - (anchor === 'start' ? 0 : textPx(text) / (anchor === 'end' ? 1 : 2))
        expect(left).toBeGreaterThanOrEqual(-1)
        expect(left + textPx(text)).toBeLessThanOrEqual(widthPx + 1)
        expect(Number(y) > 10 && Number(y) < heightPx).toBe(true)
      }
    }
  })
})
