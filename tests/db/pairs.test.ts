import { describe, expect, it } from 'vitest'
import { outreachOf } from '../../db/catalogue/outreach.ts'
import { outreachFile } from '../../db/catalogue/outreach-file.ts'
import { checkedPairs, pairLine } from '../../db/catalogue/pairs.ts'
import { type StarRow, starRows } from '../../db/catalogue/rows.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import { AN_OBJECT } from '../support/field-data.ts'

const star = (
  hip: number,
  raDeg: number,
  decDeg: number,
  magnitude: number,
  given: Partial<StarRow> = {},
): StarRow => ({
  ...{ hip, raDeg, decDeg, magnitude, bv: null, constellation: 'Cyg' },
  ...{ pmRaMasYr: 0, pmDecMasYr: 0, parallaxMas: 0 },
  ...given,
})
const table = (...stars: readonly StarRow[]) => new Map(stars.map((it) => [it.hip, it]))
const double = (given: Partial<ShowObject>): ShowObject => ({
  ...AN_OBJECT,
  key: 'hip1',
  designations: ['HIP 1'],
  kind: 'double',
  componentMagnitudes: [3, 5],
  separationArcsec: 36,
  pairAngleDeg: 90,
  pairYear: 2020,
  ...given,
})
const FIRST = star(1, 10, 60, 3)
const SECOND = star(2, 10.02, 60, 5) // 0.02 degrees of right ascension are 36" at declination 60

describe('a double and its two stars', () => {
  it('are compared by distance and angle', () => {
    const [pair] = checkedPairs([double({})], table(FIRST, SECOND))
    expect(pair).toMatchObject({ hips: [1, 2], year: 2020, isFine: true })
    expect(pair?.computed.arcsec).toBeCloseTo(36, 3)
    expect(pair?.computed.angleDeg).toBeCloseTo(90, 1)
  })

  it.each([
    ['the distance', { separationArcsec: 40 }, false],
    ['the distance a little', { separationArcsec: 37.4 }, true],
    ['the angle', { pairAngleDeg: 94 }, false],
    ['the angle a little', { pairAngleDeg: 92 }, true],
    ['which star comes first', { pairAngleDeg: 270 }, false],
    ['which of two even stars comes first', { pairAngleDeg: 270, componentMagnitudes: [4.95, 5] as const }, true],
    ['the distance, as its note tells', { separationArcsec: 40, note: 'In orbit: as it was in 1995.' }, true],
    ['the distance, with a note of something else', { separationArcsec: 40, note: 'A third star is near.' }, false],
    ['the distance, with a note without a year', { separationArcsec: 40, note: 'The pair has turned.' }, false],
  ] as const)('may differ in %s: %j is %s', (_what, given, isFine) => {
    expect(checkedPairs([double(given)], table(FIRST, SECOND)).map((pair) => pair.isFine)).toEqual([isFine])
  })

  it('are taken to the year of the row, when both motions are known', () => {
    const moving = table({ ...FIRST, pmDecMasYr: 100 }, { ...SECOND, pmDecMasYr: -400 })
    const [pair] = checkedPairs([double({ separationArcsec: 37.4, pairAngleDeg: 106, pairYear: 2020 })], moving)
    expect(pair?.computed.arcsec).toBeCloseTo(Math.hypot(36, 10.25), 1)
    expect(pair?.computed.angleDeg).toBeCloseTo(105.9, 1)
    const half = table({ ...FIRST, pmDecMasYr: 100 }, SECOND)
    expect(checkedPairs([double({})], half)[0]?.computed.arcsec).toBeCloseTo(36, 3)
  })

  it('are found by number, else by place and light', () => {
    const other = star(3, 10, 60.004, 5.1)
    const named = double({ designations: ['HIP 1', 'HIP 3'] })
    expect(checkedPairs([named], table(FIRST, SECOND, other))[0]?.hips).toEqual([1, 3])
    const strangers = table(FIRST, star(4, 10.02, 60, 7), star(5, 10, 60.15, 5))
    expect(checkedPairs([double({})], strangers)).toEqual([])
    const quadruple = double({ designations: ['HIP 1', 'HIP 4'], separationArcsec: 2.2 })
    expect(checkedPairs([quadruple], strangers)).toEqual([])
  })
})

describe('the doubles of the list', () => {
  const pairs = checkedPairs(outreachOf([outreachFile('doubles.csv')]), starRows())

  it('stand as their stars do, or say that they have turned', () => {
    expect(pairs.length).toBeGreaterThan(20)
    expect(pairs.filter(({ isFine }) => !isFine).map(pairLine)).toEqual([])
  })

  it('have Albireo at 34.5" and 54 degrees, worked out by hand from the two places of the table', () => {
    // 0.0088 degrees east x cos 27.96 = 27.98", 0.0056 degrees north = 20.16"
    const { computed } = pairs.find(({ key }) => key === 'hip95947') ?? { computed: undefined }
    expect(computed?.arcsec).toBeCloseTo(34.5, 1)
    expect(computed?.angleDeg).toBeCloseTo(54.2, 1)
  })
})
