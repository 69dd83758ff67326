import { join } from 'node:path'
import SqliteDatabase, { type Database } from 'better-sqlite3'

/** The SQLite release that mended a corruption in WAL files (sqlite.org/wal.html, "walresetbug"). */
const OLDEST_SQLITE = [3, 51, 3] as const
const FULL = 2

export const DATABASE_FILE = 'duskrow.db'

/** How the open database answers about itself: its version, its journal and how it syncs (2 = FULL). */
interface SqliteFacts {
  readonly version: string
  readonly journalMode: string
  readonly synchronous: number
}

/**
 * Opens the database of a data folder (or one in memory) so that a commit is on the disk before it returns.
 * Throws when SQLite is too old or does not hold to the settings asked of it.
 */
export function openDatabase(folder: string | ':memory:'): Database {
  const isInMemory = folder === ':memory:'
  const db = new SqliteDatabase(isInMemory ? ':memory:' : join(folder, DATABASE_FILE))
  try {
    db.pragma('journal_mode = WAL')
    db.pragma('synchronous = FULL')
    db.pragma('foreign_keys = ON')
    // On macOS a plain fsync leaves the data in the drive's own cache.
    db.pragma('fullfsync = 1')
    db.pragma('checkpoint_fullfsync = 1')
    assertDurable(db, isInMemory ? 'memory' : 'wal')
    return db
  } catch (error) {
    db.close()
    throw error
  }
}

/** What the open database says of itself. */
export function sqliteFacts(db: Database): SqliteFacts {
  return {
    version: db.prepare<[], string>('SELECT sqlite_version()').pluck().get() ?? '',
    journalMode: db.pragma('journal_mode', { simple: true }) as string,
    synchronous: db.pragma('synchronous', { simple: true }) as number,
  }
}

/** Tells a number that grows with every row that is added, changed or taken away. */
export function changesOf(db: Database): () => number {
  const total = db.prepare<[], number>('SELECT total_changes()').pluck()
  return () => total.get() ?? 0
}

/** Throws unless SQLite is new enough and, after a write, still syncs every commit. */
function assertDurable(db: Database, journalMode: string): void {
  // Before the first write the pragma answers what was asked for; only after it, what is done.
  const written = db.pragma('user_version', { simple: true }) as number
  db.pragma(`user_version = ${written}`)
  const facts = sqliteFacts(db)
  if (!isNewEnough(facts.version)) throw new Error(`SQLite ${facts.version} is older than ${OLDEST_SQLITE.join('.')}`)
  if (facts.journalMode !== journalMode) throw new Error(`Journal is ${facts.journalMode}, not ${journalMode}`)
  if (facts.synchronous !== FULL) throw new Error(`Commits are not synced (synchronous = ${facts.synchronous})`)
  if (db.pragma('foreign_keys', { simple: true }) !== 1) throw new Error('Foreign keys are off')
}

/** True when a version `a.b.c` is the oldest allowed or a later one. */
export function isNewEnough(version: string): boolean {
  const parts = version.split('.').map(Number)
  for (const [i, least] of OLDEST_SQLITE.entries()) {
    const part = parts[i] ?? 0
    if (part !== least) return part > least
  }
  return true
}
