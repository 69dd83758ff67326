import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { Type } from 'typebox'
import { backUp, copyWhole, syncFolder } from './backup.ts'
import { copyName } from './copies.ts'
import { type CopyLook, lookAtCopy } from './copy-look.ts'
import { fromJson } from './json.ts'
import { MIGRATIONS, newestSchema } from './migrate.ts'
import { DATABASE_FILE } from './open.ts'

const WISH_FILE = 'go-back-to.json'
const RESTORED_FILE = `${DATABASE_FILE}.restored`
const Wish = Type.Object({ path: Type.String() })

/** Why a file cannot take the place of the database. */
export type CopyRefusal = 'none' | 'damaged' | 'foreign' | 'newer' | 'unwritten'

/** What came of a wish to go back: the copy that is now the database, or why it is not. */
export interface WentBack {
  readonly path: string
  readonly refusal: CopyRefusal | null
  /** The folder that the database of before was moved to; null when there was none, or nothing was moved. */
  readonly asideAt: string | null
  /** The copy that was made of it first; null when none could be made. */
  readonly copiedTo: string | null
}

/** Why a copy cannot take the place of the database of this program, or null. */
export function refusalOf({ state, schema }: CopyLook, migrations = MIGRATIONS): CopyRefusal | null {
  if (state !== 'whole') return state
  return schema > newestSchema(migrations) ? 'newer' : null
}

/** Notes in a data folder that its next opening goes back to a copy. */
export function wishToGoBack(folder: string, path: string): void {
  const file = join(folder, WISH_FILE)
  writeFileSync(`${file}.new`, JSON.stringify({ path }), { mode: 0o600, flush: true })
  renameSync(`${file}.new`, file)
  syncFolder(folder)
}

/** The copy that the next opening of a data folder goes back to, or null. */
export function wishedFor(folder: string): string | null {
  const file = join(folder, WISH_FILE)
  return existsSync(file) ? fromJson(Wish, readFileSync(file, 'utf8')).path : null
}

/** Takes the wish back; nothing changes at the next opening. */
export function stayHere(folder: string): void {
  rmSync(join(folder, WISH_FILE), { force: true })
  syncFolder(folder)
}

/**
 * Does what `wishToGoBack` noted, on a folder that this process alone holds and whose database is closed; null when
 * nothing was noted. The database of before is copied and then moved aside, never deleted. The wish is taken away last,
 * so that a process killed anywhere in between leaves the rest to the next opening.
 */
export async function goBackIfWished(folder: string, now: Date, migrations = MIGRATIONS): Promise<WentBack | null> {
  const path = wishedFor(folder)
  if (path === null) return null
  const refusal = refusalOf(lookAtCopy(path), migrations) ?? (await unwritten(path, folder))
  if (refusal !== null) {
    stayHere(folder)
    return { path, refusal, asideAt: null, copiedTo: null }
  }
  const isThere = existsSync(join(folder, DATABASE_FILE))
  const copiedTo = isThere ? await backUp(folder, copyName('before-restore', now)).catch(() => null) : null
  const asideAt = moveAside(folder, now)
  renameSync(join(folder, RESTORED_FILE), join(folder, DATABASE_FILE))
  stayHere(folder)
  return { path, refusal: null, asideAt, copiedTo }
}

/** Lays the copy ready beside the database; what stands in the way of that must not keep the service from starting. */
async function unwritten(path: string, folder: string): Promise<CopyRefusal | null> {
  try {
    await copyWhole(path, join(folder, RESTORED_FILE))
    return null
  } catch {
    rmSync(join(folder, RESTORED_FILE), { force: true, recursive: true })
    return 'unwritten'
  }
}

/** The database last: without it, what belongs to it could be taken for rubbish at the next opening. */
const PARTS = [`${DATABASE_FILE}-wal`, `${DATABASE_FILE}-shm`, DATABASE_FILE] as const

function moveAside(folder: string, now: Date): string | null {
  const parts = PARTS.filter((name) => existsSync(join(folder, name)))
  if (parts.length === 0) return null
  const aside = freshAside(join(folder, 'set-aside', now.toISOString().replace(/[:.]/g, '-')))
  for (const name of parts) renameSync(join(folder, name), join(aside, name))
  syncFolder(aside)
  return aside
}

/** Makes a folder that was not there before. */
function freshAside(wanted: string): string {
  const path = existsSync(wanted) ? `${wanted}-again` : wanted
  if (path !== wanted && existsSync(path)) return freshAside(path)
  mkdirSync(path, { recursive: true, mode: 0o700 })
  return path
}
