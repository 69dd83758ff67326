import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Database } from 'better-sqlite3'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { attachCatalogue, ensureCatalogue } from '../../db/catalogue/load.ts'
import { type ObjectStore, objectStore } from '../../db/objects.ts'
import { openDatabase } from '../../db/open.ts'
import { A_FEW_OBJECTS, A_STORY, TOPICS } from '../support/catalogue-data.ts'

let folder = ''
let db: Database
let objects: ObjectStore

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'duskrow-objects-'))
  db = openDatabase(folder)
  attachCatalogue(
    db,
    ensureCatalogue(folder, {
      outreach: A_FEW_OBJECTS,
      stories: [A_STORY],
      events: {},
      names: {},
      texts: {},
      topics: TOPICS,
    }),
  )
  objects = objectStore(db)
}, 120_000)
afterAll(() => {
  db.close()
  rmSync(folder, { recursive: true, force: true })
})

const keys = (query: string, limit = 8): readonly string[] => objects.search(query, limit).map(({ key }) => key)

describe('search', () => {
  it.each([
    ['m 13', 'm13'],
    ['m13', 'm13'],
    ['M13', 'm13'],
    ['Messier 13', 'm13'],
    ['ngc 6205', 'm13'],
    ['ngc 7000', 'ngc7000'],
    ['NGC869', 'ngc869'],
    ['ngc-884', 'ngc869'],
    ['melotte 25', 'mel25'],
    ['north am', 'ngc7000'],
    ['nebula america', 'ngc7000'],
    ['alpha cen', 'hip71683'],
    ['Alpha Centauri', 'hip71683'],
    ['α Cen', 'hip71683'],
    ['61 cyg', 'hip104214'],
    ['pi3 ori', 'hip22449'],
    ['tau ceti', 'hip8102'],
    ['epsilon bootis', 'hip72105'],
    ['ε Boötis', 'hip72105'],
    ['hd 48915', 'hip32349'],
    ['gliese 820a', 'hip104214'],
    ['hip 11767', 'hip11767'],
    ['cassiopeia alpha', 'hip3179'],
    ['betelg', 'hip27989'],
    ['vega', 'hip91262'],
    ['saturn', 'saturn'],
  ])('answers %s with %s first', (query, key) => {
    expect(keys(query)[0]).toBe(key)
  })

  it('puts what is called exactly so before what only begins so', () => {
    expect(keys('m 1').slice(0, 2)).toEqual(['m1', 'm13'])
    expect(keys('mira')[0]).toBe('hip10826')
  })

  it('puts outreach objects before stars, and bright stars before faint ones', () => {
    expect(keys('h')[0]).toBe('mel25')
    const found = objects.search('ursae', 40)
    const magnitudes = found.map(({ magnitude }) => magnitude ?? 0)
    expect(magnitudes.length).toBeGreaterThan(20)
    expect(magnitudes).toEqual([...magnitudes].sort((a, b) => a - b))
    expect(objects.search('cygnus', 5)[0]).toMatchObject({ key: 'ngc7000', isOutreach: true })
  })

  it('finds all of a lettered group by the letter', () => {
    expect(keys('pi ori', 12)).toEqual(expect.arrayContaining(['hip22449', 'hip22549', 'hip22797', 'hip22509']))
  })

  it('finds a star without a name down to V 8 by its number', () => {
    expect(keys('hip 25')[0]).toBe('hip25')
  })

  it('answers each thing once, and no more than asked for', () => {
    const found = keys('a', 50)
    expect(found).toHaveLength(50)
    expect(new Set(found).size).toBe(50)
  })

  it.each(['', '   ', '"', '*', '--', "'", '()', 'nothing called so', 'x'.repeat(200)])(
    'answers %j with nothing',
    (query) => {
      expect(keys(query)).toEqual([])
    },
  )

  it.each([
    'AND',
    'a AND',
    'NOT m13',
    'NEAR(m13, 2)',
    'name:m13',
    '"m13',
    'm13*',
    '^m13',
    '{name}: x',
    'a OR b',
    'm13; DROP TABLE entry',
    '|',
    'a | b',
    '\u0000',
    '½',
    '١٣',
  ])('takes %j as plain words', (query) => {
    expect(() => objects.search(query, 5)).not.toThrow()
  })

  it('never throws, whatever is typed', () => {
    const typed = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 200 }),
      fc
        .array(fc.constantFrom('"', '*', 'AND', 'NEAR(', ')', ':', '^', '-', 'm', '13', '|', 'α', ' ', '{', "'"), {
          maxLength: 40,
        })
        .map((parts) => parts.join('')),
    )
    fc.assert(
      fc.property(
        typed,
        fc.integer({ min: 1, max: 20 }),
        (query, limit) => objects.search(query, limit).length <= limit,
      ),
      { numRuns: 400 },
    )
  })
})

describe('find', () => {
  it.each([
    ['m13', 'm13'],
    ['ngc6205', 'm13'],
    ['NGC 6205', 'm13'],
    ['messier13', 'm13'],
    ['ngc884', 'ngc869'],
    ['vega', 'hip91262'],
    ['alpha-lyrae', 'hip91262'],
    ['alpha-lyr', 'hip91262'],
    ['3-lyr', 'hip91262'],
    ['hd172167', 'hip91262'],
    ['hip25', 'hip25'],
    ['rigil-kentaurus', 'hip71683'],
    ['alpha-cen', 'hip71683'],
    ['alpha2-cen', 'hip71681'],
    ['hip104217', 'hip104214'],
    ['gj-820b', 'hip104214'],
  ])('answers %s with the canonical key %s', (key, canonicalKey) => {
    expect(objects.find(key)).toMatchObject({ canonicalKey, object: { key: canonicalKey } })
  })

  it.each(['', 'm999', 'hip999999', 'hip', '../m13x'])('finds nothing called %j', (key) => {
    expect(objects.find(key)).toBeUndefined()
  })

  it('answers the whole object of the outreach list, and a short row for other stars', () => {
    expect(objects.find('m13')?.object).toEqual(A_FEW_OBJECTS[0])
    expect(objects.find('hip71681')?.object).toMatchObject({ name: 'Toliman', kind: 'star', isOutreach: false })
  })
})

describe('the outreach list', () => {
  it('comes whole, the most appealing first', () => {
    expect(objects.outreach().map(({ key }) => key)).toEqual([
      'saturn',
      'mel25',
      'hip91262',
      'm1',
      'm13',
      'ngc7000',
      'ngc869',
      'hip104214',
    ])
  })

  it('is shown by canonical key only', () => {
    expect(objects.show('m13')?.name).toBe(A_FEW_OBJECTS[0]?.name)
    expect(objects.show('ngc6205')).toBeUndefined()
  })

  it('takes the motion of a star from the table of motions when its own row says nothing of it', () => {
    expect(objects.show('hip91262')).toMatchObject({ pmRaMasYr: 200.94, pmDecMasYr: 286.23, parallaxMas: 130.23 })
  })

  it('tells the story of a thing in the language that has one', () => {
    expect(objects.story('m13', 'en')).toEqual(A_STORY)
    expect(objects.story('m13', 'de')).toBeUndefined()
  })

  it('is counted apart from stars and towns', () => {
    expect(objects.counts()).toMatchObject({ stars: 41_411, outreach: A_FEW_OBJECTS.length })
    expect(objects.counts().places).toBeGreaterThan(52_000)
  })
})

describe('the stars of the charts', () => {
  it('come brightest first and stop at the limit', () => {
    const stars = objects.stars(2)
    expect(stars[0]).toMatchObject({ hip: 32349, pmRaMasYr: -546.01, pmDecMasYr: -1223.07 })
    expect(stars.every(({ magnitude }) => magnitude <= 2)).toBe(true)
    expect(objects.stars(8)).toHaveLength(41_411)
    expect(objects.stars(-2)).toEqual([])
  })
})
