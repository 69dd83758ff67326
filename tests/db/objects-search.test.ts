import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Database } from 'better-sqlite3'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { attachCatalogue, ensureCatalogue } from '../../db/catalogue/load.ts'
import { type ObjectStore, objectStore } from '../../db/objects.ts'
import { openDatabase } from '../../db/open.ts'
import type { MoonFeature } from '../../server/sight/moon-features.ts'
import type { ObjectKind, ShowObject } from '../../server/tours/target.ts'
import { TOPICS } from '../support/catalogue-data.ts'
import { AN_OBJECT } from '../support/field-data.ts'

const thing = (
  key: string,
  name: string,
  kind: ObjectKind,
  constellation: string | null,
  given: Partial<ShowObject> = {},
): ShowObject => ({ ...AN_OBJECT, designations: [], key, name, kind, constellation, ...given })

const feature = (name: string, official: string, kind: MoonFeature['kind']): MoonFeature => ({
  ...{ name, official, kind },
  ...{
    longitudeDeg: 0,
    latitudeDeg: 0,
    diameterKm: 90,
    bestFromDeg: 3,
    bestToDeg: 15,
    see: 'A round hole with steps.',
  },
})

const nowhere = { raDeg: null, decDeg: null, magnitude: null }
const LIST: readonly ShowObject[] = [
  thing('moon', 'Moon', 'moon', null, {
    ...nowhere,
    body: 'moon',
    appeal: 1,
    features: [
      feature('Copernicus', 'Copernicus', 'peak-crater'),
      feature('Bay of Rainbows', 'Sinus Iridum', 'bay'),
      feature('Rays of Tycho', 'Tycho', 'rays'),
    ],
  }),
  thing('saturn', 'Saturn', 'planet', null, { ...nowhere, body: 'saturn', appeal: 0.95 }),
  thing('titan', 'Titan', 'planet-moon', null, { ...nowhere, parent: 'saturn', appeal: 0.4 }),
  thing('m42', 'Orion Nebula', 'nebula', 'Ori', {
    designations: ['M42', 'NGC 1976'],
    appeal: 0.9,
    raDeg: 83.82,
    decDeg: -5.39,
  }),
  thing('m43', "De Mairan's Nebula", 'nebula', 'Ori', {
    designations: ['M43', 'NGC 1982'],
    appeal: 0.2,
    raDeg: 83.88,
    decDeg: -5.27,
  }),
  thing('hip26549', 'Sigma Orionis', 'double', 'Ori', { appeal: 0.3, raDeg: 84.69, decDeg: -2.6 }),
  thing('m78', 'M78', 'nebula', 'Ori', { appeal: 0.15, raDeg: 86.69, decDeg: 0.08 }),
  thing('shower-ori', 'Orionids', 'meteor-shower', 'Ori', { appeal: 0.3, raDeg: 84, decDeg: -5 }),
  thing('m57', 'Ring Nebula', 'planetary', 'Lyr', { designations: ['M57', 'NGC 6720'], appeal: 0.65 }),
  thing('m13', 'Hercules Cluster', 'globular', 'Her', { designations: ['M13', 'NGC 6205'], appeal: 0.75 }),
  thing('m31', 'Andromeda Galaxy', 'galaxy', 'And', { designations: ['M31', 'NGC 224'], appeal: 0.5 }),
  thing('m65', 'M65', 'galaxy', 'Leo', { designations: ['NGC 3623'], appeal: 0.2 }),
  thing('ngc3344', 'NGC 3344', 'galaxy', 'LMi', { appeal: 0.15 }),
  thing('m45', 'Pleiades', 'open-cluster', 'Tau', { designations: ['M45', 'Seven Sisters'], appeal: 0.8 }),
  thing('ngc869', 'Double Cluster', 'open-cluster', 'Per', { designations: ['NGC 869', 'NGC 884'], appeal: 0.78 }),
  thing('ngc7000', 'North America Nebula', 'nebula', 'Cyg', { designations: ['NGC 7000'], appeal: 0.4 }),
  thing('hip95947', 'Albireo', 'double', 'Cyg', { designations: ['Beta Cygni'], appeal: 0.8 }),
  thing('hip107259', "Herschel's Garnet Star", 'red-star', 'Cep', { appeal: 0.5 }),
  thing('eye-milky-way', 'Milky Way', 'bare-eye', null, { ...nowhere, appeal: 0.6 }),
]

let folder = ''
let db: Database
let objects: ObjectStore

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'duskrow-search-'))
  db = openDatabase(folder)
  attachCatalogue(
    db,
    ensureCatalogue(folder, { outreach: LIST, stories: [], events: {}, names: {}, texts: {}, topics: TOPICS }),
  )
  objects = objectStore(db)
}, 120_000)
afterAll(() => {
  db.close()
  rmSync(folder, { recursive: true, force: true })
})

const keys = (query: string, own: readonly ShowObject[] = []): readonly string[] =>
  objects.search(query, 20, own).map(({ key }) => key)
const listed = (query: string): readonly string[] =>
  objects.search(query, 20).flatMap(({ key, isOutreach }) => (isOutreach ? [key] : []))

describe('kinds and constellations in plain words', () => {
  it.each([
    ['globular clusters', ['m13']],
    ['globular', ['m13']],
    ['red stars', ['hip107259']],
    ['double star in cygnus', ['hip95947']],
    ['galaxies leo', ['m65', 'ngc3344']],
    ['galaxies in Leo Minor', ['ngc3344']],
    ['shooting stars', ['shower-ori']],
    ['meteor shower', ['shower-ori']],
    ['clusters', ['m45', 'ngc869', 'm13']],
    ['nebulae', ['m42', 'm57', 'ngc7000', 'm43', 'm78']],
    ['planetary nebulas', ['m57']],
    ['planets', ['saturn']],
    ['moons', ['moon', 'titan']],
    ['moons of saturn', ['titan']],
    ['naked eye', ['eye-milky-way']],
    ['cygnus', ['hip95947', 'ngc7000']],
    ['cygni', ['hip95947', 'ngc7000']],
    ['cyg', ['hip95947', 'ngc7000']],
    ['nebula ori', ['m42', 'm43', 'm78']],
  ])('answers %s with %j', (query, found) => {
    expect(listed(query)).toEqual(found)
  })

  it.each([
    ['Kugelsternhaufen', ['m13']],
    ['Kugelhaufen im Herkules', ['m13']],
    ['roter Stern', ['hip107259']],
    ['Doppelstern im Schwan', ['hip95947']],
    ['Galaxien im Löwen', ['m65', 'ngc3344']],
    ['Galaxie im Kleinen Löwen', ['ngc3344']],
    ['Sternschnuppen', ['shower-ori']],
    ['offene Sternhaufen', ['m45', 'ngc869']],
    ['Sternhaufen', ['m45', 'ngc869', 'm13']],
    ['Nebel', ['m42', 'm57', 'ngc7000', 'm43', 'm78']],
    ['planetarischer Nebel', ['m57']],
    ['Gasnebel', ['m42', 'ngc7000', 'm43', 'm78']],
    ['Planeten', ['saturn']],
    ['Monde des Saturn', ['titan']],
    ['mit bloßem Auge', ['eye-milky-way']],
    ['im Sternbild Schwan', ['hip95947', 'ngc7000']],
    ['Stier', ['m45']],
    ['Glaxien', ['m31', 'm65', 'ngc3344']],
    ['Kugelsternhaufn', ['m13']],
  ])('answers the German %s with %j', (query, found) => {
    expect(listed(query)).toEqual(found)
  })

  it('puts what is called so before what is of that kind, and that before what only has the words', () => {
    expect(listed('double cluster')[0]).toBe('ngc869')
    expect(listed('double')).toEqual(['ngc869', 'hip95947', 'hip26549'])
    expect(listed('leo')).toEqual(['m65', 'ngc3344'])
  })
})

describe('a slip of typing', () => {
  it.each([
    ['betelgeux', 'hip27989'],
    ['adromeda', 'm31'],
    ['plaides', 'm45'],
    ['orion nebla', 'm42'],
    ['herculs cluster', 'm13'],
    ['mesier 13', 'm13'],
    ['globuler clusters in hercules', 'm13'],
    ['doubel cluster', 'ngc869'],
    ['seven sistres', 'm45'],
    ['albirio', 'hip95947'],
    ['saggitarius', 'hip90185'],
    ['satern', 'saturn'],
  ])('in %s is forgiven', (query, key) => {
    expect(keys(query)[0]).toBe(key)
  })

  it('is not looked for where the words answer as they stand', () => {
    expect(keys('mira')).toEqual(['hip10826', 'hip5447', 'hip13268'])
    expect(keys('ring')).toEqual(['m57'])
  })

  it.each(['m 130', 'messier 32', 'messier 31 cygnus', 'ngc 70001', 'ngc 6206'])(
    'is never seen in a number: %s',
    (query) => {
      expect(listed(query)).toEqual([])
    },
  )

  it('is one in a word, and none in a short word', () => {
    expect(keys('adromda')).toEqual([])
    expect(keys('lyx')).toEqual([])
  })
})

describe('what a hit was called', () => {
  it.each([
    ['copernicus crater', 'moon', 'Copernicus'],
    ['bay of rainbos', 'moon', 'Bay of Rainbows'],
    ['sinus iridum', 'moon', 'Bay of Rainbows'],
    ['tycho', 'moon', 'Rays of Tycho'],
    ['ngc7000', 'ngc7000', 'NGC 7000'],
    ['messier 13', 'm13', 'M13'],
    ['sisters', 'm45', 'Seven Sisters'],
    ['beta cygni', 'hip95947', 'Beta Cygni'],
  ])('in %s is told beside %s', (query, key, called) => {
    expect(objects.search(query, 20).find((hit) => hit.key === key)?.called).toBe(called)
  })

  it.each(['orion nebula', 'nebula', 'albireo', 'cygnus', 'double star in cygnus'])(
    'is left out where %s says no more than name, kind and constellation do',
    (query) => {
      for (const hit of objects.search(query, 20)) expect(hit).not.toHaveProperty('called')
    },
  )
})

describe("things of the host's", () => {
  const own = [
    thing('own-lemmon', 'Comet Lemmon', 'comet', null, nowhere),
    thing('own-nova', 'New star', 'star', 'Cyg'),
  ]

  it.each([
    ['lemmon', ['own-lemmon']],
    ['lemon', ['own-lemmon']],
    ['comets', ['own-lemmon']],
    ['star in cygnus', ['own-nova', 'hip95947']],
    ['new star', ['own-nova']],
    ['m 31', ['m31']],
  ])('answer %s by the same rules, and first', (query, found) => {
    expect(keys(query, own)).toEqual(found)
  })
})

describe('things near another', () => {
  it('are what telescopes may be given within 5 degrees, nearest first, with how far they are', () => {
    const near = objects.near({ key: 'm42', raDeg: 83.82, decDeg: -5.39 }, 10)
    expect(near.map(({ object }) => object.key)).toEqual(['m43', 'hip26549'])
    expect(near[0]?.separationDeg).toBeCloseTo(0.134, 3)
    expect(near[1]?.separationDeg).toBeCloseTo(2.921, 2)
    expect(objects.near({ key: 'm42', raDeg: 83.82, decDeg: -5.39 }, 1)).toHaveLength(1)
  })

  it('are none for what has no fixed place', () => {
    expect(objects.near({ key: 'saturn', raDeg: null, decDeg: null }, 10)).toEqual([])
  })
})
