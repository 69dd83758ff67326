import type { Database } from 'better-sqlite3'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'
import { type OwnWordStore, ownWordStore } from '../../db/own-words.ts'

let db: Database
let store: OwnWordStore
beforeEach(() => {
  db = openDatabase(':memory:')
  migrate(db)
  store = ownWordStore(db)
})
afterEach(() => db.close())

it('keeps what a host wrote of a thing in a language, and each writing takes the place of the one before', () => {
  store.put('m13', 'de', { see: 'Ein Ball.', answer: 'Er ist alt.' })
  store.put('m13', 'en', { see: 'A ball.' })
  store.put('own-1', 'cy', { more: 'Pêl.' })
  expect(store.find('m13', 'de')).toEqual({ see: 'Ein Ball.', answer: 'Er ist alt.' })
  expect(store.find('m13', 'cy')).toEqual({})
  expect(store.languages()).toEqual(['cy', 'de', 'en'])
  expect(store.languages('m13')).toEqual(['de', 'en'])
  store.put('m13', 'de', { lookFor: 'Den Rand.' })
  expect(store.find('m13', 'de')).toEqual({ lookFor: 'Den Rand.' })
  store.put('m13', 'de', {})
  expect(store.languages()).toEqual(['cy', 'en'])
})
