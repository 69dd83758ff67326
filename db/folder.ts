import { chmodSync, mkdirSync } from 'node:fs'
import type { Database } from 'better-sqlite3'
import { backUp } from './backup.ts'
import { copyName, rotate } from './copies.ts'
import { lockFolder } from './lock.ts'
import { MIGRATIONS, migrate, migrationsDue, schemaVersion } from './migrate.ts'
import { openDatabase } from './open.ts'
import { goBackIfWished, type WentBack } from './restore.ts'

export interface OpenFolder {
  readonly db: Database
  /** What came of the host's wish to go back to a copy; null without one. */
  readonly wentBack: WentBack | null
  /** Closes the database and lets the next process in. */
  close(): void
}

/**
 * Opens a data folder for this process alone, readable by its owner only, with the schema up to date. A wish to go back
 * to a copy is carried out first, and a database that needs migrating is backed up before it is. A folder that another
 * process holds gives a conflict Fault.
 */
export async function openFolder(folder: string, migrations = MIGRATIONS): Promise<OpenFolder> {
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  chmodSync(folder, 0o700)
  const unlock = lockFolder(folder)
  try {
    const wentBack = await goBackIfWished(folder, new Date(), migrations)
    const db = openDatabase(folder)
    try {
      await bringUpToDate(db, folder, migrations)
    } catch (error) {
      db.close()
      throw error
    }
    return { db, wentBack, close: () => closeBoth(db, unlock) }
  } catch (error) {
    unlock()
    throw error
  }
}

async function bringUpToDate(db: Database, folder: string, migrations: string): Promise<void> {
  if (migrationsDue(db, migrations) === 0) return
  const version = schemaVersion(db)
  if (version > 0) {
    await backUp(folder, copyName(`before-migration-${version + 1}`, new Date()))
    rotate(folder, [])
  }
  migrate(db, migrations)
}

function closeBoth(db: Database, unlock: () => void): void {
  try {
    db.close()
  } finally {
    unlock()
  }
}
