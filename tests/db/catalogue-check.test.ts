import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { allowedArcmin } from '../../db/catalogue/check/places.ts'
import { type Ours, report } from '../../db/catalogue/check/report.ts'
import { plainId, readTable } from '../../db/catalogue/check/table.ts'
import { csvRows } from '../../db/catalogue/csv.ts'
import { starKey } from '../../db/catalogue/entries.ts'
import { type StarNames, type StarRow, starNames } from '../../db/catalogue/rows.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import { OUTREACH } from '../support/evenings.ts'
import { AN_OBJECT } from '../support/field-data.ts'

const thing = (given: Partial<ShowObject>): ShowObject => ({ ...AN_OBJECT, designations: [], ...given })
const named = (name: string, constellation: string): StarNames => ({
  ...{ name, constellation, bayer: '', flamsteed: '', variable: '', nearby: '', hd: '' },
})
const star = (hip: number, constellation: string): StarRow => ({
  ...{ hip, raDeg: 0, decDeg: 0, pmRaMasYr: 0, pmDecMasYr: 0, parallaxMas: 0, magnitude: 3, bv: 0, constellation },
})

const BALL = thing({ key: 'm900', name: 'Ball', designations: ['M900', 'NGC 9001'], raDeg: 100, decDeg: 20 })
const SPINDLE = thing({
  ...{ key: 'ngc9002', name: 'Spindle', kind: 'galaxy', constellation: 'Leo', raDeg: 150, decDeg: 10 },
  ...{ majorArcmin: 6, minorArcmin: 2, angleDeg: 170 },
})
const CLOUD = thing({
  key: 'ic99',
  name: 'Cloud',
  kind: 'nebula',
  raDeg: 80,
  decDeg: 0,
  majorArcmin: 60,
  minorArcmin: 40,
})
const LOST = thing({ key: 'ngc9003', name: 'Lost', kind: 'galaxy' })
const PAIR = thing({ key: 'hip11', name: 'Pair', designations: ['HIP 11', 'Twain'], kind: 'double' })
const OURS: Ours = {
  objects: [BALL, SPINDLE, CLOUD, LOST, PAIR],
  names: new Map([
    [11, named('Firsty', 'Cyg')],
    [12, named('Second', 'Lyr')],
    [13, named('Third', 'Aql')],
  ]),
  stars: new Map([11, 12, 13].map((hip) => [hip, star(hip, 'Cyg')])),
  explanations: [],
}
const linesOf = (text: string, given: Partial<Ours> = {}) =>
  report({ ...OURS, ...given }, [{ name: 'table.csv', text }])

describe('a table of places', () => {
  const heading = 'id,name,type,constellation,ra_deg,dec_deg,pa_deg\n'

  it('that agrees leaves nothing to mend, and says what stands on one side alone', () => {
    const { lines, open } = linesOf(
      `${heading}M900,NGC9001,GCl,Her,100.02,20.01,\nNGC9002,NGC9002,G,Leo,150,10,5\nIC0099,IC0099,Neb,Her,80,0.3,\nNGC77,NGC77,G,Leo,1,1,`,
    )
    expect(open).toBe(0)
    expect(lines).toEqual([
      'table.csv: 4 lines, 3 things compared, 0 differ, 0 explained',
      '  only in the table: 1',
      '    NGC77',
      '  only in the list: 1',
      '    ngc9003',
    ])
  })

  it.each([
    ["a place more than 3' off", 'M900,,GCl,Her,100,20.06,', 'm900 (Ball) place: 3.6'],
    ['a large cloud more than a third of its length off', 'IC99,,Neb,Her,80,0.35,', 'ic99 (Cloud) place: 21.0'],
    ['another number of the same list', 'M900,NGC9011,GCl,Her,100,20,', 'm900 (Ball) name: the table calls it NGC9011'],
    ['another constellation', 'M900,,GCl,Oph,100,20,', 'm900 (Ball) constellation: stands in Her, in the table in Oph'],
    ['another angle', 'NGC9002,,G,Leo,150,10,15', 'ngc9002 (Spindle) angle: lies at 170°, in the table at 15°'],
  ])('shows %s', (_what, line, says) => {
    const { lines, open } = linesOf(heading + line)
    expect(open).toBe(1)
    expect(lines[1]).toContain(`DIFFERS    ${says}`)
  })

  it('leaves alone the angle of what is nearly round, and numbers of a list that the thing has no number of', () => {
    const round = thing({ ...SPINDLE, majorArcmin: 2.6, minorArcmin: 2 })
    expect(linesOf(`${heading}NGC9002,C14,G,Leo,150,10,80`, { objects: [round] }).open).toBe(0)
  })

  it('takes the nearest of the lines that name one thing', () => {
    const both = thing({ ...BALL, designations: ['NGC 9001', 'NGC 9005'] })
    const text = `${heading}NGC9005,,OCl,Her,101,20,\nNGC9001,,OCl,Her,100,20,`
    expect(linesOf(text, { objects: [both] }).open).toBe(0)
  })

  it('prints what is explained with the reason, and counts it as done', () => {
    const explanations = [{ key: 'm900', what: 'place', why: 'the table means its left half' }]
    const { lines, open } = linesOf(`${heading}M900,,GCl,Oph,100,21,`, { explanations })
    expect(open).toBe(1)
    expect(lines.filter((line) => line.includes('explained  m900'))).toEqual([
      "  explained  m900 (Ball) place: 60.0' from the table's 100, 21 (3.0' allowed): the table means its left half",
    ])
  })
})

it("allows a third of its length to what has no single centre, and 3' to all else", () => {
  const allowed = (given: Partial<ShowObject>) => allowedArcmin(thing({ majorArcmin: 30, ...given }))
  expect(allowed({ kind: 'open-cluster' })).toBe(10)
  expect(allowed({ kind: 'galaxy' })).toBe(10)
  expect(allowed({ kind: 'galaxy', majorArcmin: 12 })).toBe(3)
  expect(allowed({ kind: 'globular' })).toBe(3)
  expect(allowed({ kind: 'nebula', majorArcmin: 3 })).toBe(3)
})

describe('a table of star names', () => {
  it('shows names and constellations that differ, and names that stand at another star', () => {
    const { lines, open } = linesOf(
      'hip,iau_name,constellation,designation\n11,First,Cyg,α\n12,Second,Her,_\n14,Third,Aql,_\n15,Twain,Cyg,β',
    )
    expect(open).toBe(4)
    expect(lines.slice(0, 5)).toEqual([
      'table.csv: 4 lines, 2 things compared, 4 differ, 0 explained',
      '  DIFFERS    hip11 (Firsty) name: is First in the table',
      '  DIFFERS    hip12 (Second) constellation: stands in Cyg, in the table in Her',
      '  DIFFERS    hip13 (Third) name: is the name of HIP 14 in the table',
      '  DIFFERS    hip11 (Pair) name: bears the name Twain, which is of HIP 15 in the table',
    ])
    expect(lines).toContain('    HIP 14 Third, HIP 15 Twain')
  })
})

describe('the headings of a table', () => {
  it.each([
    ['Name,RA (deg),Dec (deg)', 'Ball,100,20'],
    ['key,raDeg,decDeg,position angle', 'Ball,100,20,'],
    ['\ufeffobject,ra_j2000_deg,de_j2000_deg,con', 'Ball,100,20,Her'],
  ])('are known by their words: %s', (heading, line) => {
    expect(readTable(`${heading}\n${line}\n`)[0]).toMatchObject({ ids: ['Ball'], raDeg: 100, decDeg: 20 })
  })

  it.each(['name,constellation\nBall,Her', 'ra_deg,dec_deg\n1,2', 'hip\n1'])('must be enough: %j', (text) => {
    expect(() => readTable(text)).toThrow(/needs a name or id/)
  })

  it('stand over degrees', () => {
    expect(() => readTable('name,ra,dec\nBall,06:40:00,+20')).toThrow(/line 2: raDeg is "06:40:00"/)
  })

  it('lead to designations in one form', () => {
    expect(['M 1', 'm001', 'M1', 'NGC0224', 'ngc-224', 'Mel022'].map(plainId)).toEqual([
      ...['m1', 'm1', 'm1', 'ngc224', 'ngc224', 'mel22'],
    ])
  })
})

it('explains differences of things that are on the list or have a name, each once and with a reason', () => {
  const known = new Set([...OUTREACH.map(({ key }) => key), ...[...starNames().keys()].map(starKey)])
  const rows = csvRows('check/explained.csv')
  for (const [key = '', what, why = ''] of rows) {
    expect(known).toContain(key)
    expect(['place', 'name', 'angle', 'constellation']).toContain(what)
    expect(why.length, key).toBeGreaterThan(20)
  }
  expect(new Set(rows.map(([key, what]) => `${key} ${what}`)).size).toBe(rows.length)
})

it('ends with code 1 when something is left, and names it', () => {
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-check-'))
  try {
    const path = join(folder, 'wrong.csv')
    writeFileSync(path, 'name,ra_deg,dec_deg\nM13,10,10\n')
    const { status, stdout } = spawnSync(process.execPath, ['--import', 'tsx', 'db/catalogue/check/main.ts', path], {
      cwd: join(import.meta.dirname, '..', '..'),
      encoding: 'utf8',
    })
    expect(stdout).toMatch(/wrong\.csv: 1 lines, 1 things compared, 1 differ/)
    expect(stdout).toMatch(/DIFFERS {4}m13 .* place: /)
    expect(status).toBe(1)
  } finally {
    rmSync(folder, { recursive: true })
  }
})
