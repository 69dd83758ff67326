import type { Database } from 'better-sqlite3'
import { ClassVisit } from '../server/tours/class-visit.ts'
import { fromJson } from './json.ts'

export type ClassVisitStore = ReturnType<typeof classVisitStore>

/** Every statement about what was agreed for visiting classes. */
export function classVisitStore(db: Database) {
  const byNight = db.prepare<[string], string>('SELECT visit FROM class_visit WHERE night_id = ?').pluck()
  const insert = db.prepare<[string, string]>(`
    INSERT INTO class_visit (night_id, visit) VALUES (?, ?)
    ON CONFLICT (night_id) DO UPDATE SET visit = excluded.visit`)

  return {
    find(nightId: string): ClassVisit | undefined {
      const text = byNight.get(nightId)
      return text === undefined ? undefined : fromJson(ClassVisit, text)
    },
    put: (nightId: string, visit: ClassVisit): void => void insert.run(nightId, JSON.stringify(visit)),
  }
}
