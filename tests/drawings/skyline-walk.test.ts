import { describe, expect, it } from 'vitest'
import { QUARTER_PX, QUARTERS_DEG, skylineQuarter, tappedCorner } from '../../server/drawings/skyline-quarter.ts'
import { skylineWalk } from '../../server/drawings/skyline-walk.ts'
import { svgElement, svgText } from '../../server/drawings/svg.ts'
import { WALK_NARROW, WALK_PAPER } from '../../server/drawings/walk-scale.ts'
import { type Box, overlaps } from '../../server/drawings/word-box.ts'
import type { ClearSpan } from '../../server/tours/clear-spans.ts'
import type { WalkPoint } from '../../server/tours/walks.ts'
import { ENGLISH } from '../support/page-data.ts'

const zone = 'Europe/Berlin'
const horizon = [
  { azimuthDeg: 0, altitudeDeg: 2, name: '' },
  { azimuthDeg: 180, altitudeDeg: 20, name: 'oak <old>' },
  { azimuthDeg: 270, altitudeDeg: 5, name: 'roof' },
]
const point = (minutes: number, azimuthDeg: number, altitudeDeg: number): WalkPoint => ({
  at: new Date(Date.UTC(2026, 11, 17, 17, minutes)),
  azimuthDeg,
  altitudeDeg,
  skylineDeg: 10,
  isClear: altitudeDeg > 12,
})
const at = (minutes: number): Date => new Date(Date.UTC(2026, 11, 17, 17, minutes))
const span = (from: number, until: number, after: ClearSpan['after']): ClearSpan => ({
  fromAt: at(from),
  untilAt: at(until),
  before: null,
  after,
})
const draw = (walk: readonly WalkPoint[], clear: readonly ClearSpan[] = [], paper = WALK_PAPER) =>
  skylineWalk({ walk, clear, site: { horizon, zone }, name: 'A & B' }, ENGLISH, paper)

describe('the drawing of a walk', () => {
  it('draws half hours to scale: east to the left of south, higher further up', () => {
    const drawn = draw([point(0, 150, 10), point(30, 165, 30), point(60, 180, 50)])
    const [first, second, third] = drawn?.moments ?? []
    if (!drawn || !first || !second || !third) throw new Error('Nothing was drawn')
    expect(second.x - first.x).toBeCloseTo(third.x - second.x, 6)
    expect(first.y - second.y).toBeCloseTo(second.y - third.y, 6)
    expect(first.x).toBeLessThan(third.x)
    expect(third.y).toBeLessThan(first.y)
    expect([first.isClear, third.isClear]).toEqual([false, true])
  })

  it('walks on through north without turning back', () => {
    const drawn = draw([point(0, 350, 40), point(30, 2, 42), point(60, 14, 44)])
    const xs = drawn?.moments.map(({ x }) => x) ?? []
    expect(xs).toEqual([...xs].sort((a, b) => a - b))
    expect((drawn?.toDeg ?? 0) - (drawn?.fromDeg ?? 0)).toBeCloseTo(70, 6)
  })

  it('draws nothing of what stays below the horizon', () => {
    expect(draw([point(0, 150, -10), point(30, 160, -5)])).toBeNull()
  })

  it('dashes what is behind something, names trees, and escapes every word', () => {
    const svg = draw([point(0, 150, 10), point(30, 165, 30)])?.svg ?? ''
    expect(svg).toContain('stroke-dasharray')
    expect(svg).toContain('oak &lt;old&gt;')
    expect(svg).toContain('A &amp; B')
    expect(svg).not.toMatch(/style=|<script|NaN|opacity/)
  })

  it.each([
    ['as it is printed', WALK_PAPER, 14],
    ['for a phone', WALK_NARROW, 12],
  ])('sets every name and time apart from the others and on the paper, %s', (_name, paper, leastPt) => {
    const walk = Array.from({ length: 37 }, (_, k) => point(5 * k, 150 + 2 * k, 12 + k))
    const drawn = draw(walk, [span(30, 60, { code: 'skyline', name: 'oak' }), span(90, 180, null)], paper)
    if (!drawn) throw new Error('Nothing was drawn')
    const { things, moments, bar, widthMm, heightMm } = drawn
    expect(widthMm).toBe(paper.widthMm)
    expect(things.map(({ name }) => name)).toContain('oak <old>')
    expect(moments.filter(({ time }) => time !== null).length).toBeGreaterThan(3)
    const boxes: Box[] = [...things.map(({ box }) => box), ...moments.flatMap(({ time }) => time ?? [])]
    boxes.push(...bar.ends, ...bar.pieces.map(({ word }) => word))
    for (const [i, box] of boxes.entries()) {
      expect(box.sizePt).toBeGreaterThanOrEqual(leastPt)
      expect(box.x1 >= 0 && box.x2 <= widthMm && box.y1 >= 0 && box.y2 <= heightMm, box.lines.join(' ')).toBe(true)
      expect(boxes.slice(i + 1).some((other) => overlaps(box, other, -0.01))).toBe(false)
    }
  })

  it('has letters that are read on a phone of 320 pixels, with a margin at each side', () => {
    const letterMm = (WALK_NARROW.sizePt * 25.4) / 72
    expect((letterMm / WALK_NARROW.widthMm) * (320 - 2 * 16)).toBeGreaterThan(11)
  })

  it('has one bar, as long as the public hours, with a piece and its words for every clear span', () => {
    const walk = Array.from({ length: 25 }, (_, k) => point(5 * k, 150 + k, 30))
    const bar = draw(walk, [span(0, 30, { code: 'skyline', name: 'oak' }), span(60, 120, null)])?.bar
    if (!bar) throw new Error('Nothing was drawn')
    const xOf = (minutes: number): number => bar.x1 + ((bar.x2 - bar.x1) * minutes) / 120
    const [first, second] = bar.pieces
    expect(first?.x1).toBeCloseTo(xOf(0), 9)
    expect(first?.x2).toBeCloseTo(xOf(30), 9)
    expect(second?.x1).toBeCloseTo(xOf(60), 9)
    expect(second?.x2).toBeCloseTo(xOf(120), 9)
    expect(first?.word.lines.join(' ')).toBe('clear of the oak 18:00 to 18:30')
    expect(second?.word.lines.join(' ')).toBe('clear 19:00 to 20:00')
    expect(draw(walk)?.bar.never?.lines).toEqual(['never clear in these hours'])
  })
})

describe('the drawing of a skyline that is tapped', () => {
  it('reads a tap on a corner that it drew as that corner, to half a degree, edges and tops too', () => {
    for (const azimuthDeg of [0, 1, 44, 89, 90, 135, 200.4, 270, 359]) {
      for (const altitudeDeg of [0, 3, 30.4, 60]) {
        const corner = { azimuthDeg, altitudeDeg, name: '' }
        const drawn = QUARTERS_DEG.flatMap((from) =>
          skylineQuarter([corner], from, ENGLISH).corners.map((place) => ({ from, ...place })),
        )
        expect(drawn.length).toBe(azimuthDeg % 90 === 0 ? 2 : 1)
        for (const { from, xPx, yPx } of drawn) {
          expect(xPx >= 0 && xPx <= QUARTER_PX.width && yPx >= 0 && yPx <= QUARTER_PX.height).toBe(true)
          const read = tappedCorner(from, { xPx, yPx })
          expect(Math.abs(read.azimuthDeg - azimuthDeg)).toBeLessThanOrEqual(0.5)
          expect(Math.abs(read.altitudeDeg - altitudeDeg)).toBeLessThanOrEqual(0.5)
        }
      }
    }
  })

  it('has its compass points along the foot, and takes a tap in the margins as the nearest height', () => {
    const { svg } = skylineQuarter(horizon, 270, ENGLISH)
    for (const point of ['>W<', '>NW<', '>N<', '>60°<']) expect(svg).toContain(point)
    expect(svg).not.toMatch(/style=|NaN/)
    expect(tappedCorner(270, { xPx: 270, yPx: 0 })).toEqual({ azimuthDeg: 0, altitudeDeg: 60 })
    expect(tappedCorner(0, { xPx: 0, yPx: 211 })).toEqual({ azimuthDeg: 0, altitudeDeg: 0 })
  })
})

describe('svg text', () => {
  it('escapes words and attributes', () => {
    expect(svgElement('text', { title: '"<&' }, svgText("it's <b>"))).toBe(
      '<text title="&quot;&lt;&amp;">it&#39;s &lt;b&gt;</text>',
    )
  })
})
