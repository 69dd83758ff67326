import { randomBytes } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

const FILE = 'join-secret'
const BYTES = 32

/**
 * The secret of a data folder from which the codes for phones are made, readable by its owner only and new when there is
 * none. It lies beside the database and not in it, so that a copy of the database lets nobody in.
 */
export function joinSecret(folder: string): Buffer {
  const path = join(folder, FILE)
  if (existsSync(path)) {
    const kept = readFileSync(path)
    if (kept.length === BYTES) return kept
  }
  const made = randomBytes(BYTES)
  writeFileSync(path, made, { mode: 0o600 })
  return made
}
