import { describe, expect, it } from 'vitest'
import { outreachOf } from '../../db/catalogue/outreach.ts'

const ROW = {
  key: 'ngc1',
  name: 'Lantern Cluster',
  designations: 'NGC 1',
  kind: 'open-cluster',
  constellation: 'Peg',
  raDeg: '1.8',
  decDeg: '27.7',
  magnitude: '5',
  magnitudeBand: 'V',
  magnitudeRange: '',
  majorArcmin: '20',
  minorArcmin: '10',
  brightestStarMag: '7',
  starCount: '50',
  componentMagnitudes: '',
  distanceLy: '1000',
  appeal: '0.5',
  appealReason: 'An invented row',
  atOnce: '1',
  sources:
    'place: XHIP; magnitude: from memory; size: from memory; stars: from memory; distance: from memory; appeal: our judgement',
}
type Row = Readonly<Record<string, string>>

const quoted = (cell: string) => `"${cell.replaceAll('"', '""')}"`
const csv = (...rows: readonly Row[]) =>
  [Object.keys(rows[0] ?? {}), ...rows.map((row) => Object.values(row))]
    .map((cells) => cells.map(quoted).join(','))
    .join('\n')
const read = (...rows: readonly Row[]) => outreachOf([{ name: 'invented.csv', text: csv(...rows) }])
const other = { ...ROW, key: 'ngc2', name: 'Other Cluster', designations: 'NGC 2' }

it('reads a good row into an object, empty cells as null, with the source beside each value', () => {
  const [object] = read(ROW)
  expect(object).toMatchObject({ key: 'ngc1', designations: ['NGC 1'], raDeg: 1.8, magnitudeRange: null, bv: null })
  expect(object).toMatchObject({ body: null, hips: [], pmRaMasYr: 0, atOnce: 1 })
  expect(object?.sources).toEqual({
    raDeg: 'XHIP',
    decDeg: 'XHIP',
    magnitude: 'from memory',
    majorArcmin: 'from memory',
    minorArcmin: 'from memory',
    brightestStarMag: 'from memory',
    starCount: 'from memory',
    distanceLy: 'from memory',
    appeal: 'our judgement',
    atOnce: 'our judgement',
  })
})

describe('refuses, naming file and line,', () => {
  const sources = ROW.sources
  it.each<[string, Row, string]>([
    ['a place beyond the pole', { decDeg: '90.1' }, 'decDeg must be <= 90'],
    ['a right ascension of a whole turn', { raDeg: '360' }, 'raDeg must be < 360'],
    ['an appeal above one', { appeal: '1.2' }, 'appeal must be <= 1'],
    ['a word where a number belongs', { magnitude: 'bright' }, 'magnitude must be number'],
    ['a kind that nobody knows', { kind: 'quasar' }, 'kind must be equal to one of the allowed values'],
    ['a key with a capital', { key: 'NGC1' }, 'key must match pattern'],
    ['no name', { name: '' }, 'name must be string'],
    ['a column that the list does not have', { colour: 'red' }, 'colour is no column of this list'],
    ['a list of three where two belong', { magnitudeRange: '4; 5; 6' }, 'magnitudeRange has a value too many'],
    ['a range that leaves the mean outside', { magnitudeRange: '6; 7' }, 'magnitude lies outside magnitudeRange'],
    ['a shape wider than long', { minorArcmin: '30' }, 'minorArcmin is larger than majorArcmin'],
    [
      'the fainter star first',
      { componentMagnitudes: '6; 5' },
      'componentMagnitudes must name the brighter star first',
    ],
    ['a cluster without its size', { majorArcmin: '' }, 'kind open-cluster needs majorArcmin'],
    ['a double without its stars', { kind: 'double' }, 'kind double needs componentMagnitudes'],
    ['an asterism without its stars', { kind: 'asterism' }, 'kind asterism needs hips'],
    ['a planet under another key', { kind: 'planet', body: 'mars' }, 'key of a body must be its body'],
    ['no source at all', { sources: '' }, 'raDeg has no source'],
    [
      'one value without a source',
      { sources: sources.replace('distance: from memory; ', '') },
      'distanceLy has no source',
    ],
    [
      'a published source that was not at hand',
      { sources: sources.replace('XHIP', 'Harris 1996') },
      'is not one this list knows',
    ],
    ['a source beside an empty cell', { sources: `${sources}; angle: from memory` }, 'stands beside no value'],
  ])('%s', (_what, change, reason) => {
    // A column that only the second row fills still stands in the header; its empty cell in the first row does no harm.
    const first = { ...other, ...blanksOf(change) }
    const readBoth = () => read(first, { ...ROW, ...change })
    expect(readBoth).toThrow(`invented.csv line ${'colour' in change ? 2 : 3}: `)
    expect(readBoth).toThrow(reason)
  })

  it.each<[string, Row, string]>([
    ['key', { key: 'ngc2' }, '"ngc2" already stands at invented.csv line 2'],
    ['name', { name: 'Other cluster' }, '"Other cluster" already stands at invented.csv line 2'],
    ['designation', { designations: 'NGC 1; NGC2' }, '"NGC2" already stands at invented.csv line 2'],
  ])('a %s that is used twice', (_what, change, reason) => {
    expect(() => read(other, { ...ROW, ...change })).toThrow(`invented.csv line 3: ${reason}`)
  })

  it('a row with a cell too few', () => {
    expect(() => outreachOf([{ name: 'short.csv', text: 'key,name\nmoon' }])).toThrow(/^short\.csv: .*line 2/)
  })

  it('a name that two files share', () => {
    const files = [ROW, { ...other, name: ROW.name }].map((row, i) => ({ name: `file-${i}.csv`, text: csv(row) }))
    expect(() => outreachOf(files)).toThrow('file-1.csv line 2: "Lantern Cluster" already stands at file-0.csv line 2')
  })
})

/** The columns of a change that the plain row lacks, all empty. */
const blanksOf = (change: Row): Row =>
  Object.fromEntries(
    Object.keys(change)
      .filter((column) => !(column in ROW))
      .map((column) => [column, '']),
  )
