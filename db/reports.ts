import type { Database } from 'better-sqlite3'
import type { NightState } from '../server/tours/night.ts'
import { ReportEdits } from '../server/tours/report-edits.ts'
import { fromJson } from './json.ts'

/** When a night was closed, and the state that it goes back to. */
export interface NightClosing {
  readonly stateBefore: Exclude<NightState, 'closed'>
  readonly closedAt: Date
}

interface ClosingRow {
  readonly stateBefore: NightClosing['stateBefore']
  readonly closedAt: string
}

export type ReportStore = ReturnType<typeof reportStore>

/** Every statement about what the host wrote into reports, and about nights that are closed. */
export function reportStore(db: Database) {
  const edits = db.prepare<[string], string>('SELECT edits FROM report_edit WHERE night_id = ?').pluck()
  const put = db.prepare<[string, string, string]>(`
    INSERT INTO report_edit (night_id, edits, put_at) VALUES (?, ?, ?)
    ON CONFLICT (night_id) DO UPDATE SET edits = excluded.edits, put_at = excluded.put_at`)
  const closing = db.prepare<[string], ClosingRow>(
    'SELECT state_before AS stateBefore, closed_at AS closedAt FROM night_closing WHERE night_id = ?',
  )
  const close = db.prepare<[string, string, string]>(
    'INSERT OR REPLACE INTO night_closing (night_id, state_before, closed_at) VALUES (?, ?, ?)',
  )
  const open = db.prepare<[string]>('DELETE FROM night_closing WHERE night_id = ?')
  const setState = db.prepare<[NightState, string]>('UPDATE night SET state = ? WHERE id = ?')
  const find = (nightId: string): NightClosing | undefined => {
    const row = closing.get(nightId)
    return row && { ...row, closedAt: new Date(row.closedAt) }
  }

  const closeNight = db.transaction((nightId: string, stateBefore: NightClosing['stateBefore'], at: Date): void => {
    close.run(nightId, stateBefore, at.toISOString())
    setState.run('closed', nightId)
  })
  const openNight = db.transaction((nightId: string): void => {
    const before = find(nightId)
    open.run(nightId)
    setState.run(before?.stateBefore ?? 'planned', nightId)
  })

  return {
    edits(nightId: string): ReportEdits | undefined {
      const text = edits.get(nightId)
      return text === undefined ? undefined : fromJson(ReportEdits, text)
    },
    putEdits: (nightId: string, draft: ReportEdits, at: Date): void =>
      void put.run(nightId, JSON.stringify(draft), at.toISOString()),
    closing: find,
    /** Closes a night that is in this state. */
    close: (nightId: string, stateBefore: NightClosing['stateBefore'], at: Date): void =>
      closeNight(nightId, stateBefore, at),
    /** Opens a closed night again, in the state of before. */
    open: (nightId: string): void => openNight(nightId),
  }
}
