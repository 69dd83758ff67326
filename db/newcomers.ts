import type { Database } from 'better-sqlite3'
import type { FactorInUse } from '../server/tours/learning.ts'

interface NewcomersRow extends Omit<FactorInUse, 'setAt'> {
  readonly setAt: string
}

export type NewcomerStore = ReturnType<typeof newcomerStore>

/** Every statement about the newcomer factors that the host has taken for sites. */
export function newcomerStore(db: Database) {
  const bySite = db.prepare<[string], NewcomersRow>(
    'SELECT factor, low, high, marks, set_at AS setAt FROM newcomers WHERE site_id = ?',
  )
  const insert = db.prepare<[NewcomersRow & { readonly siteId: string }]>(`
    INSERT INTO newcomers (site_id, factor, low, high, marks, set_at)
    VALUES (@siteId, @factor, @low, @high, @marks, @setAt)
    ON CONFLICT (site_id) DO UPDATE SET factor = excluded.factor, low = excluded.low, high = excluded.high,
      marks = excluded.marks, set_at = excluded.set_at`)
  const clear = db.prepare<[string]>('DELETE FROM newcomers WHERE site_id = ?')

  return {
    find(siteId: string): FactorInUse | undefined {
      const row = bySite.get(siteId)
      return row && { ...row, setAt: new Date(row.setAt) }
    },
    put(siteId: string, { factor, low, high, marks, setAt }: FactorInUse): void {
      insert.run({ siteId, factor, low, high, marks, setAt: setAt.toISOString() })
    },
    remove: (siteId: string): void => void clear.run(siteId),
  }
}
