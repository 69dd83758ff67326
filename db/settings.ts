import type { Database } from 'better-sqlite3'

export type SettingStore = ReturnType<typeof settingStore>

/** Single values of the data folder, such as the hash of the PIN. */
export function settingStore(db: Database) {
  const byKey = db.prepare<[string], string>('SELECT value FROM setting WHERE key = ?').pluck()
  const put = db.prepare<[string, string]>(
    'INSERT INTO setting (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
  )
  return {
    /** The value kept under a key, or undefined. */
    find: (key: string): string | undefined => byKey.get(key),
    /** Keeps a value under a key in place of the one before. */
    put: (key: string, value: string): void => void put.run(key, value),
  }
}
