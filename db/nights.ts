import type { Database } from 'better-sqlite3'
import { type HalfHour, type Night, NightSettings, type NightState, type Station } from '../server/tours/night.ts'
import { fromJson } from './json.ts'
import { readOnce } from './read-once.ts'
import type { SiteStore } from './sites.ts'
import { stationStore } from './stations.ts'
import type { TelescopeStore } from './telescopes.ts'

interface NightRow extends Omit<Night, 'site' | 'stations' | 'visitors' | 'settings'> {
  readonly siteId: string
  readonly state: NightState
  readonly settings: string
}

/** Every statement about nights with their half hours and their row. */
export function nightStore(db: Database, sites: SiteStore, telescopes: TelescopeStore) {
  const columns = 'id, site_id AS siteId, title, date, opens, closes, state, settings'
  const byId = db.prepare<[string], NightRow>(`SELECT ${columns} FROM night WHERE id = ?`)
  const every = db.prepare<[], NightRow>(`SELECT ${columns} FROM night ORDER BY date, opens, id`)
  const insert = db.prepare<[NightRow]>(`
    INSERT INTO night (id, site_id, title, date, opens, closes, state, settings)
    VALUES (@id, @siteId, @title, @date, @opens, @closes, @state, @settings)`)
  const update = db.prepare<[NightRow]>(`
    UPDATE night SET site_id = @siteId, title = @title, date = @date, opens = @opens, closes = @closes, state = @state,
      settings = @settings WHERE id = @id`)
  const zone = db
    .prepare<[string], string>('SELECT zone FROM site JOIN night ON site_id = site.id WHERE night.id = ?')
    .pluck()
  const visitors = visitorStatements(db)
  const stations = stationStore(db, telescopes)

  function whole({ siteId, ...row }: NightRow): Night {
    const site = sites.find(siteId)
    if (!site) throw new Error(`Night ${row.id} has no site`)
    const settings = fromJson(NightSettings, row.settings)
    return { ...row, settings, site, visitors: visitors.of(row.id), stations: [...stations.row(row.id)] }
  }

  function putParts(night: Night): void {
    visitors.put(night.id, night.visitors)
    stations.put(night.id, night.stations)
  }

  return {
    all: (): readonly Night[] => every.all().map(whole),
    /** A night takes some twenty statements to read, and every page of the field begins with it. */
    find: readOnce(db)((id: string): Night | undefined => {
      const row = byId.get(id)
      return row && whole(row)
    }),
    add: db.transaction((night: Night): void => {
      insert.run(rowOf(night))
      putParts(night)
    }),
    change: db.transaction((night: Night): void => {
      update.run(rowOf(night))
      putParts(night)
    }),
    /** Every station that the night has ever had, those out of the row included. */
    everyStation: (nightId: string): readonly Station[] => stations.every(nightId),
    everyStationId: stations.everyId,
    /** The stations that stand in the row, in order, without reading the night. */
    rowIds: stations.rowIds,
    /** The zone of a night's site, without reading the night. */
    zoneOf: (nightId: string): string | undefined => zone.get(nightId),
  }
}

const rowOf = ({ id, site, title, date, opens, closes, state, settings }: Night): NightRow => ({
  id,
  siteId: site.id,
  title,
  date,
  opens,
  closes,
  state,
  settings: JSON.stringify(settings),
})

function visitorStatements(db: Database) {
  const ofNight = db.prepare<[string], HalfHour>(
    'SELECT starts_at AS startsAt, adults, children, seated FROM visitors WHERE night_id = ? ORDER BY position',
  )
  const clear = db.prepare<[string]>('DELETE FROM visitors WHERE night_id = ?')
  const add = db.prepare<[string, number, string, number, number, number]>(
    'INSERT INTO visitors (night_id, position, starts_at, adults, children, seated) VALUES (?, ?, ?, ?, ?, ?)',
  )
  return {
    of: (nightId: string): HalfHour[] => ofNight.all(nightId),
    put(nightId: string, rows: readonly HalfHour[]): void {
      clear.run(nightId)
      for (const [i, row] of rows.entries()) add.run(nightId, i, row.startsAt, row.adults, row.children, row.seated)
    },
  }
}
