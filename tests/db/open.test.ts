import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import SqliteDatabase from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { isNewEnough, openDatabase, sqliteFacts } from '../../db/open.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

describe('the open database', () => {
  it('syncs every commit, still so after a write', () => {
    const db = openDatabase(folder)
    db.exec('CREATE TABLE t (x INTEGER) STRICT; INSERT INTO t VALUES (1)')
    expect(sqliteFacts(db)).toMatchObject({ journalMode: 'wal', synchronous: 2 })
    expect(db.pragma('fullfsync', { simple: true })).toBe(1)
    expect(db.pragma('checkpoint_fullfsync', { simple: true })).toBe(1)
    db.close()
  })

  // The trap that the read-back is there for: without asking for FULL, SQLite as built here answers 2 and then does 1.
  it('would not sync every commit if it were opened carelessly', () => {
    const db = new SqliteDatabase(join(folder, 'careless.db'))
    db.pragma('journal_mode = WAL')
    expect(sqliteFacts(db).synchronous).toBe(2)
    db.pragma('user_version = 0')
    expect(sqliteFacts(db).synchronous).toBe(1)
    db.close()
  })

  it('refuses a row that points at nothing', () => {
    const db = openDatabase(':memory:')
    db.exec('CREATE TABLE a (id TEXT PRIMARY KEY) STRICT; CREATE TABLE b (a_id TEXT REFERENCES a (id)) STRICT')
    expect(() => db.exec("INSERT INTO b VALUES ('nobody')")).toThrow(/FOREIGN KEY/)
    db.close()
  })

  it('runs on an SQLite that has the WAL-reset bug mended', () => {
    const db = openDatabase(':memory:')
    expect(isNewEnough(sqliteFacts(db).version)).toBe(true)
    db.close()
  })
})

it.each([
  ['3.51.3', true],
  ['3.52.0', true],
  ['4.0.0', true],
  ['3.51.2', false],
  ['3.9.9', false],
])('an SQLite %s is new enough: %s', (version, isFine) => expect(isNewEnough(version)).toBe(isFine))
