import { describe, expect, it } from 'vitest'
import type { FieldLayout } from '../../server/drawings/field.ts'
import { textPx } from '../../server/drawings/field-letters.ts'
import { saturnRing } from '../../server/sky/saturn.ts'
import {
  directionOnPaper,
  drawnFieldOf,
  NEWTONIAN,
  turnBetween,
  viewWith,
  WITH_DIAGONAL,
} from '../support/field-views.ts'

const PLACE = { raDeg: 292.7, decDeg: 28 } as const
const GLOBULAR = { ...PLACE, kind: 'globular', majorArcmin: 12, halfLightArcmin: 1.7 } as const
const PAIR = {
  ...PLACE,
  kind: 'double',
  separationArcsec: 34.6,
  pairAngleDeg: 54,
  componentMagnitudes: [3.2, 5.1],
  colours: ['gold', 'blue'],
} as const
const body = (key: 'moon' | 'jupiter' | 'saturn' | 'venus') =>
  ({ key, kind: key === 'moon' ? 'moon' : 'planet', body: key, raDeg: null, decDeg: null }) as const
const KINDS: readonly Parameters<typeof drawnFieldOf>[0][] = [
  GLOBULAR,
  PAIR,
  { ...PAIR, separationArcsec: 2, colours: ['yellow-white', 'greenish blue'] },
  { ...GLOBULAR, kind: 'planetary', majorArcmin: 1.4, minorArcmin: 1.1 },
  { ...GLOBULAR, kind: 'open-cluster', majorArcmin: 110, starCount: 60, brightestStarMag: 3 },
  body('moon'),
  body('jupiter'),
  body('saturn'),
  body('venus'),
]
const FIELDS_DEG = [0.25, 0.52, 1.05, 3.6]
const LAYOUTS: readonly FieldLayout[] = ['card', 'whole-card']
const MOST_MM = { column: 160, card: 58, 'whole-card': 109 }
const TEXT = /<text x="([\d.-]+)" y="([\d.-]+)" text-anchor="(\w+)" font-size="([\d.]+)"[^>]*>([^<]*)/g

describe.each(LAYOUTS)('the field of an eyepiece in the layout %s', (layout) => {
  it('is as true to scale as on a sheet: field, thing and what is drawn once more', () => {
    for (const trueFieldDeg of FIELDS_DEG) {
      const views = [viewWith(NEWTONIAN, trueFieldDeg)]
      const { circle } = drawnFieldOf(GLOBULAR, { layout, views })
      expect((2 * circle.radiusPx) / circle.pxPerArcmin / 60 / trueFieldDeg).toBeCloseTo(1, 6)
      expect((2 * (circle.drawn.ellipses[0]?.halfMajorPx ?? 0)) / circle.pxPerArcmin / 12).toBeCloseTo(1, 6)
      const saturn = drawnFieldOf(body('saturn'), { layout, views }).circle
      const ringArcmin = saturnRing(new Date('2026-11-20T18:30:00Z')).majorArcsec / 60
      for (const part of [saturn, saturn.inset]) {
        const ring = part?.drawn.ellipses[0]
        if (part && ring) expect((2 * ring.halfMajorPx) / part.pxPerArcmin / ringArcmin).toBeCloseTo(1, 2)
      }
    }
  })

  it('puts the stars of a pair at their distance and angle, as the tube turns them', () => {
    for (const tube of [NEWTONIAN, WITH_DIAGONAL]) {
      const { circle } = drawnFieldOf(PAIR, { layout, views: [viewWith(tube, 0.8)] })
      const parts = [circle, circle.inset].flatMap((it) => it ?? [])
      expect(parts).toHaveLength(2)
      for (const { drawn, pxPerArcmin } of parts) {
        const [first, second] = drawn.stars
        if (!first || !second) throw new Error('Two stars')
        expect((60 * Math.hypot(second.x - first.x, second.y - first.y)) / pxPerArcmin).toBeCloseTo(34.6, 6)
        const side = circle.isMirrored ? 1 : -1
        expect(turnBetween(directionOnPaper(first, second), circle.northDeg + side * 54)).toBeLessThan(0.01)
      }
    }
  })

  it.each(KINDS)('has all of it on the paper in letters of 12 points, and no word over another', (thing) => {
    for (const trueFieldDeg of FIELDS_DEG)
      for (const tube of [NEWTONIAN, WITH_DIAGONAL])
        for (const hour of [18, 21]) {
          const at = new Date(`2026-11-20T${hour}:30:00Z`)
          const drawing = drawnFieldOf(thing, { layout, at, views: [viewWith(tube, trueFieldDeg)] })
          expect(drawing.heightPx / 5).toBeLessThanOrEqual(MOST_MM[layout])
          const boxes = [...drawing.svg.matchAll(TEXT)].map(([, x, y, anchor, size, text = '']) => {
            expect(Number(size) / 5).toBeGreaterThan(4.23)
            const left = Number(x) - (anchor === 'start' ? 0 : textPx(text) / (anchor === 'end' ? 1 : 2))
            expect(left).toBeGreaterThanOrEqual(-1)
            expect(left + textPx(text)).toBeLessThanOrEqual(drawing.widthPx + 1)
            expect(Number(y) > 15 && Number(y) < drawing.heightPx).toBe(true)
            return { text, left, right: left + textPx(text), y: Number(y) }
          })
          const over = boxes.flatMap((one, i) =>
            boxes
              .slice(i + 1)
              .filter((it) => it.left < one.right && one.left < it.right && Math.abs(it.y - one.y) < 14)
              .map((it) => `${one.text} / ${it.text}`),
          )
          expect(over).toEqual([])
        }
  })

  it('says eyepiece, power, field, time and how it is turned, and leaves signs to be told beside it', () => {
    const { svg } = drawnFieldOf(GLOBULAR, { layout, views: [viewWith(WITH_DIAGONAL, 0.52)] })
    const text = [...svg.matchAll(TEXT)].map(([, , , , , it]) => it).join(' ')
    for (const said of ['25 mm, 48 times', 'field 0.5 degrees', 'at 19:30', 'mirror image', 'north', 'drift'])
      expect(text.replaceAll(/,? (at|field|mirror)/g, ' $1')).toContain(said)
    const { legend } = drawnFieldOf(body('jupiter'), { layout })
    expect(legend).toMatch(/^E: Europa, G: Ganymede, C: Callisto\.$/)
    expect(drawnFieldOf(body('jupiter')).legend).toBeNull()
  })
})
