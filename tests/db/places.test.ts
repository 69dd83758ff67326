import type { Database } from 'better-sqlite3'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { attachCatalogue, ensureCatalogue } from '../../db/catalogue/load.ts'
import { openDatabase } from '../../db/open.ts'
import { type PlaceStore, placeStore } from '../../db/places.ts'
import { freshFolder, removeFolder } from '../support/desk-folder.ts'

let folder = ''
let db: Database
let places: PlaceStore

beforeAll(() => {
  folder = freshFolder()
  db = openDatabase(folder)
  attachCatalogue(db, ensureCatalogue(folder))
  places = placeStore(db)
}, 120_000)
afterAll(() => {
  db.close()
  removeFolder(folder)
})

it.each([
  ['Zürich', 'Zürich', 'Switzerland', 'Europe/Zurich'],
  ['zurich', 'Zürich', 'Switzerland', 'Europe/Zurich'],
  ['Köln', 'Köln', 'Germany', 'Europe/Berlin'],
  ['cologne', 'Köln', 'Germany', 'Europe/Berlin'],
  ['münchen', 'Munich', 'Germany', 'Europe/Berlin'],
  ['lodz', 'Łódź', 'Poland', 'Europe/Warsaw'],
  ['london', 'London', 'United Kingdom', 'Europe/London'],
  ['york', 'York', 'United Kingdom', 'Europe/London'],
  ["l'aquila", "L'Aquila", 'Italy', 'Europe/Rome'],
  ['aquila', "L'Aquila", 'Italy', 'Europe/Rome'],
  ['san jose calif', 'San Jose', 'United States', 'America/Los_Angeles'],
  ['sao paulo', 'São Paulo', 'Brazil', 'America/Sao_Paulo'],
])('answers %s with %s, %s first', (query, name, country, zone) => {
  expect(places.search(query, 5)[0]).toMatchObject({ name, country, zone })
})

it('tells towns of one name apart by region, and larger ones come first', () => {
  const regions = places.search('springfield', 3).map(({ region }) => region)
  expect(regions).toEqual(['Missouri', 'Massachusetts', 'Illinois'])
  expect(places.search('springfield il', 3)[0]?.region).toBe('Illinois')
})

it('completes a name while it is typed', () => {
  expect(places.search('heidelb', 5)[0]?.name).toBe('Heidelberg')
})

it('gives north and east as positive, and heights in metres', () => {
  const [town] = places.search('Quito', 1)
  expect(town?.latitudeDeg).toBeCloseTo(-0.2, 0)
  expect(town?.longitudeDeg).toBeCloseTo(-78.5, 0)
  expect(town?.heightM).toBeGreaterThan(2700)
  expect(town?.heightM).toBeLessThan(3000)
  expect(Object.keys(town ?? {}).sort()).toEqual(
    ['country', 'heightM', 'latitudeDeg', 'longitudeDeg', 'name', 'region', 'zone'].sort(),
  )
})

it.each(['', ' ', '"', '***', 'no town is called so'])('answers %j with nothing', (query) => {
  expect(places.search(query, 5)).toEqual([])
})

it('never throws, whatever is typed', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (query) => places.search(query, 5).length <= 5),
    { numRuns: 300 },
  )
})
