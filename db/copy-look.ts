import { existsSync, statSync } from 'node:fs'
import SqliteDatabase, { type Database } from 'better-sqlite3'

/** What a file holds that should be a copy. `none` is no file, `foreign` a database of something else. */
export interface CopyLook {
  readonly state: 'whole' | 'damaged' | 'foreign' | 'none'
  readonly bytes: number
  /** How many migrations it has had. */
  readonly schema: number
  readonly nights: number
  readonly marks: number
}

const NOTHING = { bytes: 0, schema: 0, nights: 0, marks: 0 } as const

/** Reads a copy from end to end, and changes nothing. */
export function lookAtCopy(path: string): CopyLook {
  if (!existsSync(path)) return { state: 'none', ...NOTHING }
  const bytes = statSync(path).size
  let copy: Database | undefined
  try {
    copy = new SqliteDatabase(path, { readonly: true, fileMustExist: true })
    return { ...whatIsIn(copy), bytes }
  } catch {
    return { state: 'damaged', ...NOTHING, bytes }
  } finally {
    copy?.close()
  }
}

function whatIsIn(copy: Database): Omit<CopyLook, 'bytes'> {
  if (copy.pragma('integrity_check', { simple: true }) !== 'ok') return { state: 'damaged', ...NOTHING }
  const tables = copy.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all()
  if (!tables.includes('night') || !tables.includes('mark')) return { state: 'foreign', ...NOTHING }
  const counted = (sql: string): number => copy.prepare<[], number>(sql).pluck().get() ?? 0
  return {
    state: 'whole',
    schema: copy.pragma('user_version', { simple: true }) as number,
    nights: counted('SELECT count(*) FROM night'),
    marks: counted('SELECT count(*) FROM mark'),
  }
}
