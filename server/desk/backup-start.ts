import type { Database } from 'better-sqlite3'
import { changesOf } from '../../db/open.ts'
import type { WentBack } from '../../db/restore.ts'
import { secondFolder } from '../../db/second-folder.ts'
import { backupDesk } from './backups.ts'
import { threadCopier } from './copier.ts'

/** How copies are made by themselves. */
export interface BackupOptions {
  /** A folder elsewhere that gets them too, or null. */
  readonly second: string | null
  /** Runs something every so many milliseconds and answers how to end that. */
  readonly every?: (ms: number, run: () => Promise<void>) => () => void
}

interface Opened {
  readonly folder: string
  readonly db: Database
  readonly wentBack: WentBack | null
  readonly nowMs?: () => number
  readonly backups?: BackupOptions | undefined
}

/** The keeping of copies over an open data folder; without options they are made on demand alone. */
export async function openBackups({ folder, db, wentBack, nowMs = Date.now, backups }: Opened) {
  const copier = threadCopier()
  // A stick that hangs must not hold up the copies on the laptop.
  const besideStick = threadCopier()
  const isWhole = async (path: string) => (await besideStick.look([path])).every(({ state }) => state === 'whole')
  const second = typeof backups?.second === 'string' ? secondFolder(backups.second, { home: folder, isWhole }) : null
  await second?.check()
  const every = backups ? (backups.every ?? againAndAgain) : null
  const kept = backupDesk({ folder, changes: changesOf(db), nowMs, copier, second, wentBack, every })
  const close = async () => void (await Promise.all([kept.close(), besideStick.close()]))
  return { desk: kept.desk, close }
}

function againAndAgain(ms: number, run: () => Promise<void>): () => void {
  const timer = setInterval(() => run().catch((error) => console.error('Copies of the database:', error)), ms).unref()
  return () => clearInterval(timer)
}
