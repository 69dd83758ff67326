import { createHash } from 'node:crypto'
import { closeSync, existsSync, fsyncSync, openSync, readdirSync, renameSync, rmSync, writeSync } from 'node:fs'
import { join } from 'node:path'
import SqliteDatabase, { type Database, SqliteError } from 'better-sqlite3'
import { buildCatalogue, type Written } from './build.ts'
import { shippedText, shippedWriting } from './shipped.ts'

const BUILT_FILE = /^catalogue-[0-9a-f]{16}\.db(\.part)?$/

/** The digest of the catalogue that is attached to a database. */
export const catalogueDigest = (db: Database): string =>
  db.prepare<[], string>('SELECT digest FROM catalogue.meta').pluck().get() ?? ''

/**
 * Builds `catalogue-<digest>.db` in a folder unless a whole one is there already, clears away those of other digests, and answers its path.
 * The file appears under its name only when it is complete and on the disk. `written` replaces the outreach list and stories that ship;
 * `beforeBuild` is called before a build, which takes some seconds.
 */
export function ensureCatalogue(folder: string, written?: Written, beforeBuild?: () => void): string {
  const digest = digestOf(written)
  const path = join(folder, `catalogue-${digest}.db`)
  if (isWhole(path, digest)) return path
  beforeBuild?.()
  for (const name of readdirSync(folder)) {
    if (BUILT_FILE.test(name)) rmSync(join(folder, name))
  }
  build(`${path}.part`, written ?? shippedWriting(), digest)
  renameSync(`${path}.part`, path)
  return path
}

/** Attaches a built catalogue as the schema `catalogue`; it can be read only. */
export function attachCatalogue(db: Database, path: string): void {
  db.prepare('ATTACH ? AS catalogue').run(path)
}

/** Sixteen hexadecimal digits that change whenever anything in the catalogue, or the code that reads it, does. */
function digestOf(written: Written | undefined): string {
  const hash = createHash('sha256')
  for (const text of shippedText()) hash.update(text)
  return hash
    .update(JSON.stringify(written ?? null))
    .digest('hex')
    .slice(0, 16)
}

/** Unsynced and without a journal: until the seal is on the disk and the name is right, nobody reads the file. */
function build(path: string, written: Written, digest: string): void {
  const db = new SqliteDatabase(path)
  try {
    db.pragma('journal_mode = OFF')
    db.pragma('synchronous = OFF')
    buildCatalogue(db, written, digest)
  } finally {
    db.close()
  }
  seal(path)
}

function isWhole(path: string, digest: string): boolean {
  if (!existsSync(path)) return false
  const db = new SqliteDatabase(path, { readonly: true })
  try {
    return db.prepare('SELECT digest FROM meta').pluck().get() === digest
  } catch (error) {
    if (error instanceof SqliteError) return false
    throw error
  } finally {
    db.close()
  }
}

/** Byte 18 of an SQLite file is its write version; a value above 2 makes every reader treat the file as read-only (SQLite file format, 1.3.3). */
const WRITE_VERSION_AT = 18
const READ_ONLY = 3

function seal(path: string): void {
  const file = openSync(path, 'r+')
  try {
    writeSync(file, Uint8Array.of(READ_ONLY), 0, 1, WRITE_VERSION_AT)
    fsyncSync(file)
  } finally {
    closeSync(file)
  }
}
