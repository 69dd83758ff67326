import type { Database } from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'
import { openStores, type Stores } from '../../server/desk/stores.ts'
import { NO_VISIT } from '../../server/tours/class-visit.ts'
import type { Night } from '../../server/tours/night.ts'
import { NO_NOTES } from '../../server/tours/site-notes.ts'
import type { Tour } from '../../server/tours/tour.ts'
import { A_NIGHT, A_SITE, A_TELESCOPE, A_TOUR } from '../support/field-data.ts'
import { A_VISIT, AN_OWN_ITEM, SOME_NOTES } from '../support/note-pages.ts'

let db: Database
let stores: Stores
beforeEach(() => {
  db = openDatabase(':memory:')
  migrate(db)
  stores = openStores(db)
})
afterEach(() => db.close())

function keepNight(night: Night = A_NIGHT): void {
  stores.sites.add(night.site)
  for (const { telescope } of night.stations) if (telescope) stores.telescopes.add(telescope)
  stores.nights.add(night)
}

describe('a site', () => {
  it('comes back with its skyline and glow in their order', () => {
    stores.sites.add(A_SITE)
    expect(stores.sites.find(A_SITE.id)).toEqual(A_SITE)
    expect(stores.sites.all()).toEqual([A_SITE])
  })

  it('takes a new skyline in place of the old one', () => {
    stores.sites.add(A_SITE)
    const changed = { ...A_SITE, name: 'Hill', horizon: [], glow: [] }
    stores.sites.change(changed)
    expect(stores.sites.find(A_SITE.id)).toEqual(changed)
  })

  it('is undefined when nobody kept it', () => expect(stores.sites.find('nowhere')).toBeUndefined())
})

it('a telescope comes back with its tubes and eyepieces', () => {
  stores.telescopes.add(A_TELESCOPE)
  expect(stores.telescopes.find(A_TELESCOPE.id)).toEqual(A_TELESCOPE)
  expect(stores.telescopes.all()).toEqual([A_TELESCOPE])
})

describe('a night', () => {
  it('comes back as it was kept', () => {
    keepNight()
    expect(stores.nights.find(A_NIGHT.id)).toEqual(A_NIGHT)
    expect(stores.nights.all()).toEqual([A_NIGHT])
  })

  it('is refused whole when one of its telescopes is not in the kit', () => {
    stores.sites.add(A_SITE)
    expect(() => stores.nights.add(A_NIGHT)).toThrow(/FOREIGN KEY/)
    expect(stores.nights.all()).toEqual([])
  })

  it('tells stations apart that were kept under one name, those out of the row too', () => {
    const [station] = A_NIGHT.stations
    if (!station) throw new Error('The night of the tests has a station')
    const twin = { ...station, id: 'a-twin', telescope: null }
    const gone = { ...station, id: 'gone', telescope: null }
    keepNight({ ...A_NIGHT, stations: [gone] })
    stores.telescopes.add(A_TELESCOPE)
    stores.nights.change({ ...A_NIGHT, stations: [station, twin] })
    const names = [1, 2].map((number) => `${station.name} ${number}`)
    const row = () => stores.nights.find(A_NIGHT.id)?.stations.map(({ name }) => name)
    expect(row()).toEqual(names)
    expect(stores.nights.everyStation(A_NIGHT.id).map(({ name }) => name)).toEqual([...names, station.name])
    stores.nights.change({ ...A_NIGHT, stations: [{ ...twin, id: 'put-again' }] })
    expect(row()).toEqual([station.name])
  })

  it('keeps a station that left the row, for the sake of its marks', () => {
    keepNight()
    stores.nights.change({ ...A_NIGHT, stations: [] })
    expect(stores.nights.find(A_NIGHT.id)?.stations).toEqual([])
    expect(
      stores.nights
        .everyStation(A_NIGHT.id)
        .map(({ id }) => id)
        .sort(),
    ).toEqual(A_NIGHT.stations.map(({ id }) => id).sort())
  })

  it('refuses settings in a row that are not the settings of a night', () => {
    keepNight()
    db.exec("UPDATE night SET settings = '{}'")
    expect(() => stores.nights.find(A_NIGHT.id)).toThrow()
  })
})

describe('a programme', () => {
  const withAll: Tour = {
    ...A_TOUR,
    nightId: A_NIGHT.id,
    notices: [{ code: 'rule.given-way' }, { code: 'rule.other', values: { count: 2, name: 'Io' } }],
  }

  it('comes back as it was kept', () => {
    keepNight()
    stores.tours.add(withAll)
    expect(stores.tours.find(withAll.id)).toEqual(withAll)
    expect(stores.tours.latest(A_NIGHT.id)).toEqual(withAll)
  })

  it('is followed by versions, of which the newest is the latest', () => {
    keepNight()
    stores.tours.add({ ...withAll, id: 'first', version: 1 })
    stores.tours.add({ ...withAll, id: 'second', version: 2, why: 'asked' })
    expect(stores.tours.latest(A_NIGHT.id)?.id).toBe('second')
    expect(stores.tours.versions(A_NIGHT.id).map(({ id }) => id)).toEqual(['first', 'second'])
    expect(() => stores.tours.add({ ...withAll, id: 'third', version: 2 })).toThrow(/UNIQUE/)
  })

  it('answers the tightest of its bounds', () => {
    keepNight()
    stores.tours.add({ ...withAll, bound: 120 })
    db.prepare('INSERT INTO tour_proof (tour_id, made_at, bound) VALUES (?, ?, ?)').run(withAll.id, '2026', 110)
    expect(stores.tours.find(withAll.id)?.bound).toBe(110)
  })

  it('is kept whole or not at all', () => {
    keepNight()
    const [stop] = withAll.stops
    if (!stop) throw new Error('The tour of the test has no stop')
    const stops = [stop, { ...stop, stationId: 'nowhere' }]
    expect(() => stores.tours.add({ ...withAll, stops })).toThrow(/FOREIGN KEY/)
    expect(stores.tours.latest(A_NIGHT.id)).toBeUndefined()
  })
})

describe('what the host writes down', () => {
  it('comes back as it was kept, and is another one when it is kept again', () => {
    keepNight()
    expect(stores.siteNotes.find(A_SITE.id)).toBeUndefined()
    for (const notes of [NO_NOTES, SOME_NOTES]) stores.siteNotes.put(A_SITE.id, notes)
    expect(stores.siteNotes.find(A_SITE.id)).toEqual(SOME_NOTES)
    for (const visit of [NO_VISIT, A_VISIT]) stores.classVisits.put(A_NIGHT.id, visit)
    expect(stores.classVisits.find(A_NIGHT.id)).toEqual(A_VISIT)
    expect(() => stores.siteNotes.put('nowhere', NO_NOTES)).toThrow(/FOREIGN KEY/)
  })

  it('offers the list that was changed last to other nights, and keeps ticks apart from it', () => {
    keepNight()
    for (const id of ['night-2', 'night-3']) stores.nights.add({ ...A_NIGHT, id, stations: [] })
    stores.checklists.put(A_NIGHT.id, [AN_OWN_ITEM], new Date('2026-11-20T12:00:00Z'))
    stores.checklists.put('night-2', [], new Date('2026-11-19T12:00:00Z'))
    expect(stores.checklists.find(A_NIGHT.id)).toEqual([AN_OWN_ITEM])
    expect(['night-3', A_NIGHT.id].map(stores.checklists.newestBut)).toEqual([A_NIGHT.id, 'night-2'])
    for (const isDone of [true, true]) stores.checklists.tick(A_NIGHT.id, 'sun', isDone)
    stores.checklists.remove(A_NIGHT.id)
    expect(stores.checklists.find(A_NIGHT.id)).toBeUndefined()
    expect(stores.checklists.ticks(A_NIGHT.id)).toEqual(['sun'])
    stores.checklists.tick(A_NIGHT.id, 'sun', false)
    expect(stores.checklists.ticks(A_NIGHT.id)).toEqual([])
  })
})

describe('a mark', () => {
  const act = {
    key: 'phone-1-0001',
    nightId: A_NIGHT.id,
    stationId: null,
    kind: 'counted',
    payload: { adults: 2, children: -1 },
    by: 'Ada',
    receivedAt: new Date('2026-11-14T17:00:10.250Z'),
    happenedAt: new Date('2026-11-14T17:00:00.000Z'),
  } as const

  it('comes back with the number that orders it', () => {
    keepNight()
    const kept = stores.marks.keep(act)
    expect(kept).toEqual({ ...act, seq: kept.seq })
    expect(stores.marks.since(A_NIGHT.id, 0)).toEqual([kept])
    expect(stores.marks.since(A_NIGHT.id, kept.seq)).toEqual([])
    expect(stores.marks.newestSeq(A_NIGHT.id)).toBe(kept.seq)
  })

  it('is kept once under its key', () => {
    keepNight()
    const first = stores.marks.keep(act)
    expect(stores.marks.keep({ ...act, by: 'Bea' })).toEqual(first)
    expect(stores.marks.since(A_NIGHT.id, 0)).toHaveLength(1)
  })

  it('never gets the number of one that is gone', () => {
    keepNight()
    const { seq } = stores.marks.keep(act)
    db.exec('DELETE FROM mark')
    expect(stores.marks.keep(act).seq).toBeGreaterThan(seq)
  })
})
