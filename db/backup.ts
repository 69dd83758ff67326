import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import SqliteDatabase, { type Database } from 'better-sqlite3'

/**
 * Copies the open database to `<folder>/backups/<name>.db` and answers that path. The copy gets its name only once it
 * is whole, checked and on the disk.
 */
export async function backUp(db: Database, folder: string, name: string): Promise<string> {
  const backups = join(folder, 'backups')
  mkdirSync(backups, { recursive: true, mode: 0o700 })
  const unfinished = join(backups, `${name}.unfinished`)
  const path = join(backups, `${name}.db`)
  rmSync(unfinished, { force: true })
  await db.backup(unfinished)
  assertWhole(unfinished)
  syncFile(unfinished, 'r+')
  renameSync(unfinished, path)
  if (process.platform !== 'win32') syncFile(backups, 'r')
  return path
}

function assertWhole(path: string): void {
  const copy = new SqliteDatabase(path)
  try {
    // One file without a journal beside it, so that the copy can be carried away whole.
    copy.pragma('journal_mode = DELETE')
    const said = copy.pragma('integrity_check', { simple: true })
    if (said !== 'ok') throw new Error(`The copy ${path} is damaged: ${said}`)
  } finally {
    copy.close()
  }
}

function syncFile(path: string, flags: 'r' | 'r+'): void {
  const file = openSync(path, flags)
  try {
    fsyncSync(file)
  } finally {
    closeSync(file)
  }
}
