import type { Database } from 'better-sqlite3'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'
import { openStores, type Stores } from '../../server/desk/stores.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { WISHES } from '../support/wish-data.ts'

let db: Database
let stores: Stores
beforeEach(() => {
  db = openDatabase(':memory:')
  migrate(db)
  stores = openStores(db)
  stores.sites.add(A_NIGHT.site)
  for (const { telescope } of A_NIGHT.stations) if (telescope) stores.telescopes.add(telescope)
  stores.nights.add(A_NIGHT)
})
afterEach(() => db.close())

it('come back as they were wished, in the order of wishing', () => {
  stores.wishes.change(A_NIGHT.id, [], WISHES)
  expect(stores.wishes.all(A_NIGHT.id)).toEqual(WISHES)
  expect(stores.wishes.all('another night')).toEqual([])
})

it('are taken back one by one, and those wished later stay behind the older ones', () => {
  const [first, second, third] = WISHES
  if (!first || !second || !third) throw new Error('There are three wishes')
  stores.wishes.change(A_NIGHT.id, [], [first, second])
  expect(stores.wishes.takeBack(A_NIGHT.id, first.id)).toBe(true)
  expect(stores.wishes.takeBack(A_NIGHT.id, first.id)).toBe(false)
  expect(stores.wishes.takeBack('another night', second.id)).toBe(false)
  stores.wishes.change(A_NIGHT.id, [], [third])
  expect(stores.wishes.all(A_NIGHT.id)).toEqual([second, third])
})

it('are replaced together, or not at all', () => {
  const [first, second] = WISHES
  if (!first || !second) throw new Error('There are two wishes')
  stores.wishes.change(A_NIGHT.id, [], [first])
  expect(() => stores.wishes.change(A_NIGHT.id, [first.id], [second, second])).toThrow('UNIQUE')
  expect(stores.wishes.all(A_NIGHT.id)).toEqual([first])
  stores.wishes.change(A_NIGHT.id, [first.id], [second])
  expect(stores.wishes.all(A_NIGHT.id)).toEqual([second])
})

it('go with their station only when that is taken out of the database, not when it leaves the row', () => {
  stores.wishes.change(A_NIGHT.id, [], WISHES)
  stores.nights.change({ ...A_NIGHT, stations: [] })
  expect(stores.wishes.all(A_NIGHT.id)).toHaveLength(WISHES.length)
})
