import type { Database } from 'better-sqlite3'
import type { WorldEvent } from '../server/tours/light-left.ts'

export type WorldEventStore = ReturnType<typeof worldEventStore>

/** What happened on Earth while light was on its way, from the catalogue that a database has attached. */
export function worldEventStore(db: Database) {
  const all = db.prepare<[string], WorldEvent>(
    `SELECT from_year AS fromYear, to_year AS toYear, what, place, source FROM catalogue.world_event
     WHERE language = ? ORDER BY from_year, to_year`,
  )
  return {
    /** Every event told in a language, oldest first; [] in a language in which none is. */
    all: (language: string): readonly WorldEvent[] => all.all(language),
  }
}
