import type { Database } from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'
import { type OwnObjectStore, ownObjectStore } from '../../db/own-objects.ts'
import { ownObject } from '../../server/tours/own-object.ts'
import { A_COMET_DRAFT, A_NOVA_DRAFT } from '../support/own-object-data.ts'

const comet = ownObject(A_COMET_DRAFT, 'comet')
const nova = ownObject(A_NOVA_DRAFT, 'nova')
let db: Database
let store: OwnObjectStore
beforeEach(() => {
  db = openDatabase(':memory:')
  migrate(db)
  store = ownObjectStore(db)
  store.add(nova)
  store.add(comet)
})
afterEach(() => db.close())

describe('things that a host entered', () => {
  it('come back as they were kept, in the order of their keys', () => {
    expect(store.all()).toEqual([comet, nova])
    expect(store.find('own-nova')).toEqual(nova)
    expect(store.find('own-other')).toBeUndefined()
  })

  it('are called by their name whatever its accents and capitals', () => {
    expect(store.called('COMET haberli')).toEqual(comet)
    expect(store.called('comet')).toBeUndefined()
    expect(store.search('hab').map(({ key }) => key)).toEqual(['own-comet'])
    expect(store.search('swan new')).toMatchObject([{ key: 'own-nova', kind: 'star', isOutreach: true }])
    expect(store.search('erli')).toEqual([])
    expect(store.search('?')).toEqual([])
  })

  it('are off the list once removed, and known by their key still', () => {
    expect(store.remove('own-comet')).toBe(true)
    expect(store.remove('own-comet')).toBe(false)
    expect(store.all()).toEqual([nova])
    expect(store.called('Comet Häberli')).toBeUndefined()
    expect(store.search('comet')).toEqual([])
    expect(store.find('own-comet')).toEqual(comet)
    expect(store.ever()).toEqual([comet, nova])
  })

  it('have a key that says whose they are', () => {
    expect(() => store.add({ ...comet, key: 'm13' })).toThrow(/CHECK/)
    expect(() => store.add(comet)).toThrow(/UNIQUE/)
  })
})
