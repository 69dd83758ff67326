import type { Database } from 'better-sqlite3'
import type { Station } from '../server/tours/night.ts'
import { withOwnNames } from '../server/tours/station-name.ts'
import type { TelescopeStore } from './telescopes.ts'

interface StationRow extends Omit<Station, 'telescope' | 'isForChildren'> {
  readonly telescopeId: string | null
  readonly isForChildren: number
}

const COLUMNS = `station.id, station.name, kind, telescope_id AS telescopeId, coalesce(person.name, '') AS operator,
  is_for_children AS isForChildren`
const TABLES = 'station LEFT JOIN person ON person.id = station.person_id'

/** Every statement about the stations of a night and the people who stand at them. */
export function stationStore(db: Database, telescopes: Pick<TelescopeStore, 'find'>) {
  const inRow = db.prepare<[string], StationRow>(
    `SELECT ${COLUMNS} FROM ${TABLES} WHERE night_id = ? AND position IS NOT NULL ORDER BY position`,
  )
  const ever = db.prepare<[string], StationRow>(
    `SELECT ${COLUMNS} FROM ${TABLES} WHERE night_id = ? ORDER BY station.rowid`,
  )
  const rowIds = db
    .prepare<[string], string>('SELECT id FROM station WHERE night_id = ? AND position IS NOT NULL ORDER BY position')
    .pluck()
  const everyId = db.prepare<[string], string>('SELECT id FROM station WHERE night_id = ?').pluck()
  const leaveRow = db.prepare<[string]>('UPDATE station SET position = NULL WHERE night_id = ?')
  const put = db.prepare<[Record<string, string | number | null>]>(`
    INSERT INTO station (id, night_id, position, name, kind, telescope_id, person_id, is_for_children)
    VALUES (@id, @nightId, @position, @name, @kind, @telescopeId, (SELECT id FROM person WHERE name = @operator),
      @isForChildren)
    ON CONFLICT (id) DO UPDATE SET position = excluded.position, name = excluded.name, kind = excluded.kind,
      telescope_id = excluded.telescope_id, person_id = excluded.person_id, is_for_children = excluded.is_for_children`)
  const addPerson = db.prepare<[string]>(
    'INSERT INTO person (id, name) VALUES (lower(hex(randomblob(5))), ?) ON CONFLICT (name) DO NOTHING',
  )

  function stationOf({ telescopeId, isForChildren, ...row }: StationRow): Station {
    const telescope = telescopeId === null ? null : telescopes.find(telescopeId)
    if (telescope === undefined) throw new Error(`Station ${row.id} has lost its telescope`)
    return { ...row, telescope, isForChildren: isForChildren === 1 }
  }

  /** Those that stand come first: one that is put into the row again has no number for the sake of its earlier self. */
  const row = (nightId: string): readonly Station[] => withOwnNames(inRow.all(nightId).map(stationOf))

  function every(nightId: string): readonly Station[] {
    const standing = row(nightId)
    const gone = ever.all(nightId).filter(({ id }) => !standing.some((station) => station.id === id))
    return [...standing, ...withOwnNames(gone.map(stationOf), standing)]
  }

  return {
    /** The stations that stand in the row, in order. */
    row,
    /** The ids of `row`. */
    rowIds: (nightId: string): readonly string[] => rowIds.all(nightId),
    /** Every station of the night, those out of the row included. */
    every,
    /** The ids of `every`. */
    everyId: (nightId: string): readonly string[] => everyId.all(nightId),
    /** Makes these the row; a station left out keeps its marks but stands in the row no more. */
    put(nightId: string, stations: readonly Station[]): void {
      leaveRow.run(nightId)
      for (const [position, { telescope, isForChildren, ...station }] of stations.entries()) {
        if (station.operator !== '') addPerson.run(station.operator)
        put.run({
          ...station,
          nightId,
          position,
          telescopeId: telescope?.id ?? null,
          isForChildren: isForChildren ? 1 : 0,
        })
      }
    },
  }
}
