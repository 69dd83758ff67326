import type { Database } from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'
import { type OwnObjectStore, ownObjectStore } from '../../db/own-objects.ts'
import { ownObject } from '../../server/tours/own-object.ts'
import { A_COMET_DRAFT, A_NOVA_DRAFT, A_PASS_DRAFT } from '../support/own-object-data.ts'

const thing = (draft: typeof A_COMET_DRAFT, key: string, isListed = true) => ({
  key,
  isListed,
  draft,
  object: ownObject(draft, key),
})
const comet = thing(A_COMET_DRAFT, 'own-comet')
const nova = thing(A_NOVA_DRAFT, 'own-nova')
const at = (time: string) => new Date(`2026-11-20T${time}Z`)

let db: Database
let store: OwnObjectStore
beforeEach(() => {
  db = openDatabase(':memory:')
  migrate(db)
  store = ownObjectStore(db)
  store.add(
    new Map([
      [nova.key, A_NOVA_DRAFT],
      [comet.key, A_COMET_DRAFT],
    ]),
  )
})
afterEach(() => db.close())

describe('things that a host entered', () => {
  it('come back as they were kept, in the order of their keys, to another reader of the database too', () => {
    for (const reader of [store, ownObjectStore(db)]) {
      expect(reader.all()).toEqual([comet, nova])
      expect(reader.listed()).toEqual([comet.object, nova.object])
      expect(reader.find('own-nova')).toEqual(nova)
      expect(reader.find('own-other')).toBeUndefined()
    }
  })

  it('are called by their name whatever its accents and capitals', () => {
    expect(store.called('COMET haberli')).toEqual(comet)
    expect(store.called('comet')).toBeUndefined()
  })

  it('are off the list once retired, known by their key still, and come back under their name', () => {
    expect(store.retire('own-comet')).toBe(true)
    expect(store.retire('own-comet')).toBe(false)
    expect(store.listed()).toEqual([nova.object])
    expect(store.called('Comet Häberli')).toBeUndefined()
    expect(store.find('own-comet')).toEqual({ ...comet, isListed: false })
    expect(store.all()).toEqual([{ ...comet, isListed: false }, nova])
    store.bringBack('own-comet', A_COMET_DRAFT.name)
    expect(store.called('Comet Häberli')).toEqual(comet)
  })

  it('have a key that says whose they are, and are added all or none', () => {
    const both = (key: string) =>
      new Map([
        ['own-pass', A_PASS_DRAFT],
        [key, A_COMET_DRAFT],
      ])
    expect(() => store.add(both('m13'))).toThrow(/CHECK/)
    expect(() => store.add(both('own-comet'))).toThrow(/UNIQUE/)
    expect(store.find('own-pass')).toBeUndefined()
    expect(store.all()).toHaveLength(2)
  })
})

describe('a thing that was changed', () => {
  const moved = { ...A_COMET_DRAFT, name: 'Comet Häberli again', raDeg: 31 }
  const later = { ...moved, raDeg: 32 }

  it('is under its key what it is now, and as of an instant what it was then', () => {
    store.change('own-comet', moved, at('10:00:00'))
    store.change('own-comet', later, at('12:00:00'))
    expect(store.find('own-comet')).toEqual(thing(later, 'own-comet'))
    expect(store.called('comet haberli')).toBeUndefined()
    expect(store.called('comet haberli again')?.key).toBe('own-comet')
    const raAt = (time: string) => store.asOf(at(time)).map(({ key, raDeg }) => [key, raDeg])
    const withNova = (raDeg: number) => [
      ['own-comet', raDeg],
      ['own-nova', 310],
    ]
    expect(raAt('09:59:59')).toEqual(withNova(30))
    expect(raAt('10:00:00')).toEqual(withNova(31))
    expect(raAt('11:59:59')).toEqual(withNova(31))
    expect(raAt('12:00:00')).toEqual(withNova(32))
  })

  it('twice at one instant was until then what it was first, and stays off the list when it is off it', () => {
    store.retire('own-comet')
    store.change('own-comet', moved, at('10:00:00'))
    store.change('own-comet', later, at('10:00:00'))
    expect(store.asOf(at('09:00:00'))[0]?.raDeg).toBe(30)
    expect(store.find('own-comet')?.isListed).toBe(false)
  })
})
