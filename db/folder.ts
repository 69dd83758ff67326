import { chmodSync, mkdirSync } from 'node:fs'
import type { Database } from 'better-sqlite3'
import { backUp } from './backup.ts'
import { lockFolder } from './lock.ts'
import { MIGRATIONS, migrate, migrationsDue, schemaVersion } from './migrate.ts'
import { openDatabase } from './open.ts'

export interface OpenFolder {
  readonly db: Database
  /** Closes the database and lets the next process in. */
  close(): void
}

/**
 * Opens a data folder for this process alone, readable by its owner only, with the schema up to date. A database that
 * needs migrating is backed up first. A folder that another process holds gives a conflict Fault.
 */
export async function openFolder(folder: string, migrations = MIGRATIONS): Promise<OpenFolder> {
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  chmodSync(folder, 0o700)
  const unlock = lockFolder(folder)
  try {
    const db = openDatabase(folder)
    try {
      await bringUpToDate(db, folder, migrations)
    } catch (error) {
      db.close()
      throw error
    }
    return { db, close: () => closeBoth(db, unlock) }
  } catch (error) {
    unlock()
    throw error
  }
}

async function bringUpToDate(db: Database, folder: string, migrations: string): Promise<void> {
  if (migrationsDue(db, migrations) === 0) return
  const version = schemaVersion(db)
  const stamp = new Date().toISOString().replace(/[:.]/g, '-')
  if (version > 0) await backUp(db, folder, `before-migration-${version + 1}-${stamp}`)
  migrate(db, migrations)
}

function closeBoth(db: Database, unlock: () => void): void {
  try {
    db.close()
  } finally {
    unlock()
  }
}
