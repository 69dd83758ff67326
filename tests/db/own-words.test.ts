import type { Database } from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
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
  expect(store.languages({ key: 'm13' })).toEqual(['de', 'en'])
  store.put('m13', 'de', { lookFor: 'Den Rand.' })
  expect(store.find('m13', 'de')).toEqual({ lookFor: 'Den Rand.' })
  store.put('m13', 'de', {})
  expect(store.languages()).toEqual(['cy', 'en'])
})

describe('words for one night', () => {
  beforeEach(() => {
    db.exec(`
      INSERT INTO site (id, name, latitude_deg, longitude_deg, height_m, zone, sky_mag)
        VALUES ('s', 'Green', 50, 8, 100, 'UTC', 20);
      INSERT INTO night (id, site_id, title, date, opens, closes, state, settings)
        VALUES ('n', 's', 'Open night', '2026-12-17', '18:00', '21:00', 'planned', '{}')`)
  })

  it('are kept apart from those of every night, and go with their night', () => {
    store.put('m13', 'de', { see: 'Ein Ball.' })
    store.put('m13', 'de', { see: 'Ein Schwarm.', how: 'Daneben.' }, 'n')
    store.put('m57', 'cy', { see: 'Modrwy.' }, 'n')
    expect(store.find('m13', 'de')).toEqual({ see: 'Ein Ball.' })
    expect(store.find('m13', 'de', 'n')).toEqual({ see: 'Ein Schwarm.', how: 'Daneben.' })
    expect([store.languages(), store.languages({ nightId: 'n' })]).toEqual([['de'], ['cy', 'de']])
    expect([store.languages({ key: 'm57' }), store.languages({ key: 'm57', nightId: 'n' })]).toEqual([[], ['cy']])
    store.put('m13', 'de', {}, 'n')
    expect([store.find('m13', 'de', 'n'), store.find('m13', 'de')]).toEqual([{}, { see: 'Ein Ball.' }])
    db.exec("DELETE FROM night WHERE id = 'n'")
    expect(store.languages({ nightId: 'n' })).toEqual(['de'])
  })

  it('need a night that there is', () => {
    expect(() => store.put('m13', 'de', { see: 'x' }, 'nowhere')).toThrow(/FOREIGN KEY/)
  })
})
