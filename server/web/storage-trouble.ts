import type { Trouble } from './problems.ts'

const FULL = /^(SQLITE_FULL|ENOSPC|EDQUOT)$/
const BUSY = /^SQLITE_(BUSY|LOCKED)/
const REFUSED = /^(SQLITE_(IOERR|READONLY|CANTOPEN|CORRUPT|NOTADB|PROTOCOL)|EIO$|EROFS$)/

/** What to tell when the disk or the database on it takes nothing; undefined for any other error. */
export function storageTrouble(error: unknown): Trouble | undefined {
  const code = error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : ''
  if (FULL.test(code)) return { status: 507, key: 'fault.disk-full' }
  if (BUSY.test(code)) return { status: 503, key: 'fault.busy' }
  return REFUSED.test(code) ? { status: 507, key: 'fault.disk-refuses' } : undefined
}
