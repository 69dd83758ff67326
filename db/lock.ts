import { join } from 'node:path'
import SqliteDatabase, { SqliteError } from 'better-sqlite3'
import { Fault } from '../server/errors.ts'

/**
 * Takes a data folder for this process alone and answers how to give it back. A second taker gets a conflict Fault.
 * The operating system drops the lock with the process, so a killed service never blocks the next start.
 */
export function lockFolder(folder: string): () => void {
  const lock = new SqliteDatabase(join(folder, 'lock.db'), { timeout: 0 })
  try {
    lock.exec('BEGIN EXCLUSIVE')
  } catch (error) {
    lock.close()
    if (error instanceof SqliteError && error.code.startsWith('SQLITE_BUSY')) {
      throw new Fault('conflict', 'fault.folder-in-use', { folder })
    }
    throw error
  }
  return () => {
    lock.close()
  }
}
