import type { Database } from 'better-sqlite3'
import { SiteNotes } from '../server/tours/site-notes.ts'
import { fromJson } from './json.ts'

export type SiteNoteStore = ReturnType<typeof siteNoteStore>

/** Every statement about what a host must know of sites. */
export function siteNoteStore(db: Database) {
  const bySite = db.prepare<[string], string>('SELECT notes FROM site_note WHERE site_id = ?').pluck()
  const insert = db.prepare<[string, string]>(`
    INSERT INTO site_note (site_id, notes) VALUES (?, ?)
    ON CONFLICT (site_id) DO UPDATE SET notes = excluded.notes`)

  return {
    find(siteId: string): SiteNotes | undefined {
      const text = bySite.get(siteId)
      return text === undefined ? undefined : fromJson(SiteNotes, text)
    },
    put: (siteId: string, notes: SiteNotes): void => void insert.run(siteId, JSON.stringify(notes)),
  }
}
