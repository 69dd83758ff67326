import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Database } from 'better-sqlite3'

/** Where the program's own migrations lie. */
export const MIGRATIONS = join(import.meta.dirname, 'migrations')

const filesIn = (folder: string): string[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.sql'))
    .sort()

/** How many migrations the database has had. */
export const schemaVersion = (db: Database): number => db.pragma('user_version', { simple: true }) as number

/** How many migrations the program has. */
export const newestSchema = (folder = MIGRATIONS): number => filesIn(folder).length

/** How many migrations this database still lacks; throws when it is newer than the program. */
export function migrationsDue(db: Database, folder = MIGRATIONS): number {
  const known = newestSchema(folder)
  const due = known - schemaVersion(db)
  if (due < 0) throw new Error(`Database version ${schemaVersion(db)} is newer than this program (${known}).`)
  return due
}

/**
 * Brings the schema up to date, one transaction a step. A database's `user_version` counts the migrations it has had:
 * file N of the sorted folder is migration N. A file that has shipped is never edited, only followed by another.
 */
export function migrate(db: Database, folder = MIGRATIONS): void {
  const due = migrationsDue(db, folder)
  const files = filesIn(folder)
  const step = db.transaction((name: string, version: number) => {
    db.exec(readFileSync(join(folder, name), 'utf8'))
    const broken = db.pragma('foreign_key_check') as unknown[]
    if (broken.length > 0) throw new Error(`${name} leaves ${broken.length} broken references.`)
    db.pragma(`user_version = ${version}`)
  })
  // Off, so that rebuilding a table deletes nothing; inside a transaction this would be a no-op.
  db.pragma('foreign_keys = OFF')
  try {
    for (const [i, name] of files.entries()) if (i >= files.length - due) step.immediate(name, i + 1)
  } finally {
    db.pragma('foreign_keys = ON')
  }
}
