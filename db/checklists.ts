import type { Database } from 'better-sqlite3'
import { type ChecklistItem, ChecklistItems } from '../server/tours/checklist.ts'
import { fromJson } from './json.ts'

export type ChecklistStore = ReturnType<typeof checklistStore>

/** Every statement about the lists of nights and their ticks. */
export function checklistStore(db: Database) {
  const byNight = db.prepare<[string], string>('SELECT items FROM checklist WHERE night_id = ?').pluck()
  // The newest is the one that was changed last, not the one of the latest date, which may be years ahead.
  const newestBut = db
    .prepare<[string], string>('SELECT night_id FROM checklist WHERE night_id <> ? ORDER BY put_at DESC LIMIT 1')
    .pluck()
  const insert = db.prepare<[string, string, string]>(`
    INSERT INTO checklist (night_id, items, put_at) VALUES (?, ?, ?)
    ON CONFLICT (night_id) DO UPDATE SET items = excluded.items, put_at = excluded.put_at`)
  const remove = db.prepare<[string]>('DELETE FROM checklist WHERE night_id = ?')
  const ticks = db.prepare<[string], string>('SELECT item FROM checklist_tick WHERE night_id = ?').pluck()
  const tick = db.prepare<[string, string]>('INSERT OR IGNORE INTO checklist_tick (night_id, item) VALUES (?, ?)')
  const untick = db.prepare<[string, string]>('DELETE FROM checklist_tick WHERE night_id = ? AND item = ?')

  return {
    find(nightId: string): readonly ChecklistItem[] | undefined {
      const text = byNight.get(nightId)
      return text === undefined ? undefined : fromJson(ChecklistItems, text)
    },
    /** The night whose list was changed last, other than this one. */
    newestBut: (nightId: string): string | undefined => newestBut.get(nightId),
    put: (nightId: string, items: readonly ChecklistItem[], at: Date): void =>
      void insert.run(nightId, JSON.stringify(items), at.toISOString()),
    remove: (nightId: string): void => void remove.run(nightId),
    ticks: (nightId: string): readonly string[] => ticks.all(nightId),
    tick: (nightId: string, item: string, isDone: boolean): void => void (isDone ? tick : untick).run(nightId, item),
  }
}
