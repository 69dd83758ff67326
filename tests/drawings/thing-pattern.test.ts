import { describe, expect, it } from 'vitest'
import { thingDrawing } from '../../server/drawings/thing.ts'
import { joinedPairs } from '../../server/drawings/thing-pattern.ts'
import { starsBeside } from '../../server/drawings/thing-stars.ts'
import { ENGLISH } from '../support/page-data.ts'
import { showObject } from '../support/show-objects.ts'

type Place = readonly [eastArcmin: number, northArcmin: number]
const linesOf = (places: readonly Place[]): string[] =>
  joinedPairs(places.map(([eastArcmin, northArcmin]) => ({ eastArcmin, northArcmin, magnitude: 1 }))).map((pair) =>
    [...pair].sort().join(''),
  )

describe('the lines of a pattern', () => {
  it('are the shortest that hold it together', () => {
    const row = [0, 3, 1, 2].map((i) => ({ raDeg: 84 + i, decDeg: 0, magnitude: 2 }))
    const pairs = joinedPairs(starsBeside({ raDeg: 84, decDeg: 0 }, row))
    expect(pairs.map((pair) => [...pair].sort().join()).sort()).toEqual(['0,2', '1,3', '2,3'])
    const thing = showObject({ kind: 'asterism', raDeg: 84, decDeg: 0, hips: [1, 2, 3, 4] })
    const pattern = thingDrawing({ thing, stars: row, bv: null }, ENGLISH)
    expect(pattern?.svg.match(/stroke-dasharray="6 4"/g)).toHaveLength(3)
    expect(pattern?.notes.join(' ')).toContain('The lines only help the eye')
    expect(pattern?.svg).toContain('3 degrees from end to end')
  })

  it('close a triangle, a square and a ring, and draw no diagonal', () => {
    const triangle: Place[] = [
      [0, 0],
      [24, 0],
      [5, 33],
    ]
    const square: Place[] = [
      [0, 0],
      [10, 0],
      [10, 11],
      [0, 10],
    ]
    const ring = Array.from({ length: 7 }, (_, i): Place => [9 * Math.cos(i * 0.9), 8 * Math.sin(i * 0.9)])
    expect(linesOf(triangle)).toHaveLength(3)
    expect(linesOf(square).sort()).toEqual(['01', '03', '12', '23'])
    expect(linesOf(ring)).toHaveLength(7)
  })

  it('leave a bend, a W and a cross open', () => {
    expect(
      linesOf([
        [0, 0],
        [9, 1],
        [18, 0],
      ]),
    ).toHaveLength(2)
    expect(
      linesOf([
        [0, 0],
        [5, -5],
        [9, -4],
        [12, -9],
        [17, -6],
      ]).sort(),
    ).toEqual(['01', '12', '23', '34'])
    expect(
      linesOf([
        [0, 0],
        [0, 10],
        [0, -12],
        [9, 0],
        [-8, 0],
      ]),
    ).toHaveLength(4)
  })

  it('are none for a single star, and one for two', () => {
    expect(linesOf([[0, 0]])).toEqual([])
    expect(
      linesOf([
        [0, 0],
        [3, 3],
      ]),
    ).toEqual(['01'])
  })
})
