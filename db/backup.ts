import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import SqliteDatabase from 'better-sqlite3'
import { backupsOf, UNFINISHED } from './copies.ts'
import { DATABASE_FILE } from './open.ts'

/** In one step, within one reading transaction, so that a write in between never makes it begin anew. */
const ALL_PAGES = 0x7fffffff

/** Copies the database of a data folder, which may be open, to `<folder>/backups/<name>` and answers that path. */
export async function backUp(folder: string, name: string): Promise<string> {
  const backups = backupsOf(folder)
  mkdirSync(backups, { recursive: true, mode: 0o700 })
  const path = join(backups, name)
  await copyWhole(join(folder, DATABASE_FILE), path)
  return path
}

/**
 * Copies a database with all that is committed in it to one file, for its owner alone. The copy gets its name only once
 * it is whole, checked and on the disk.
 */
export async function copyWhole(from: string, path: string): Promise<void> {
  const unfinished = `${path}${UNFINISHED}`
  rmSync(unfinished, { force: true })
  try {
    closeSync(openSync(unfinished, 'wx', 0o600))
    await copyPages(from, unfinished)
    assertWhole(unfinished)
    syncFile(unfinished, 'r+')
    renameSync(unfinished, path)
  } catch (error) {
    for (const rest of ['', '-journal']) rmSync(`${unfinished}${rest}`, { force: true })
    throw error
  }
  syncFolder(join(path, '..'))
}

/** Makes renames and removals in a folder last over a power cut; Windows does so by itself. */
export function syncFolder(folder: string): void {
  if (process.platform !== 'win32') syncFile(folder, 'r')
}

/** From a connection of its own, so that it may run in another thread than the one that writes. */
async function copyPages(from: string, to: string): Promise<void> {
  const source = new SqliteDatabase(from, { readonly: true, fileMustExist: true })
  try {
    await source.backup(to, { progress: () => ALL_PAGES })
  } finally {
    source.close()
  }
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
