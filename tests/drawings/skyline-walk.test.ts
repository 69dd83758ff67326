import { describe, expect, it } from 'vitest'
import { skylineWalk } from '../../server/drawings/skyline-walk.ts'
import { svgElement, svgText } from '../../server/drawings/svg.ts'
import type { WalkPoint } from '../../server/tours/object-tonight.ts'
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
const draw = (walk: readonly WalkPoint[]) => skylineWalk({ walk, site: { horizon, zone }, name: 'A & B' }, ENGLISH)

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
    expect(svg).not.toMatch(/style=|<script|NaN/)
  })
})

describe('svg text', () => {
  it('escapes words and attributes', () => {
    expect(svgElement('text', { title: '"<&' }, svgText("it's <b>"))).toBe(
      '<text title="&quot;&lt;&amp;">it&#39;s &lt;b&gt;</text>',
    )
  })
})
