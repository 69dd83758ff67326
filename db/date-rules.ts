import type { Database } from 'better-sqlite3'
import { DateRules } from '../server/tours/date-rules.ts'
import { fromJson } from './json.ts'

export type DateRuleStore = ReturnType<typeof dateRuleStore>

/** Every statement about what a host asks of dates at sites. */
export function dateRuleStore(db: Database) {
  const bySite = db.prepare<[string], string>('SELECT rules FROM date_rules WHERE site_id = ?').pluck()
  const insert = db.prepare<[string, string]>(`
    INSERT INTO date_rules (site_id, rules) VALUES (?, ?)
    ON CONFLICT (site_id) DO UPDATE SET rules = excluded.rules`)

  return {
    find(siteId: string): DateRules | undefined {
      const text = bySite.get(siteId)
      return text === undefined ? undefined : fromJson(DateRules, text)
    },
    put: (siteId: string, rules: DateRules): void => void insert.run(siteId, JSON.stringify(rules)),
  }
}
