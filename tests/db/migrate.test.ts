import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import SqliteDatabase, { type Database } from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { openFolder } from '../../db/folder.ts'
import { migrate, schemaVersion } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'

let folder = ''
let migrations = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  migrations = join(folder, 'migrations')
  mkdirSync(migrations)
  step('0001_words.sql', 'CREATE TABLE word (id INTEGER PRIMARY KEY, text TEXT NOT NULL) STRICT;')
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const step = (name: string, sql: string) => writeFileSync(join(migrations, name), sql)
const words = (db: Database) => db.prepare('SELECT text FROM word').pluck().all()
const backups = () => readdirSync(join(folder, 'backups'))

describe('bringing a data folder up to date', () => {
  it('makes no copy of a database that was not there', async () => {
    const { close } = await openFolder(folder, migrations)
    close()
    expect(readdirSync(folder)).not.toContain('backups')
  })

  it('keeps a whole copy of a database from before each migration of it', async () => {
    const first = await openFolder(folder, migrations)
    first.db.exec("INSERT INTO word (text) VALUES ('before')")
    first.close()
    step(
      '0002_colours.sql',
      "ALTER TABLE word ADD COLUMN colour TEXT NOT NULL DEFAULT 'red'; UPDATE word SET text = 'after';",
    )
    const second = await openFolder(folder, migrations)
    expect(words(second.db)).toEqual(['after'])
    expect(schemaVersion(second.db)).toBe(2)
    second.close()

    expect(backups()).toEqual([expect.stringMatching(/^before-migration-2-.*\.db$/)])
    const copy = new SqliteDatabase(join(folder, 'backups', backups()[0] ?? ''), { readonly: true })
    expect(words(copy)).toEqual(['before'])
    expect(schemaVersion(copy)).toBe(1)
    copy.close()
  })

  it('takes back a migration that fails half way, and keeps those before it', async () => {
    const first = await openFolder(folder, migrations)
    first.close()
    step('0002_good.sql', "INSERT INTO word (text) VALUES ('good');")
    step('0003_bad.sql', "INSERT INTO word (text) VALUES ('half'); INSERT INTO nowhere VALUES (1);")
    await expect(openFolder(folder, migrations)).rejects.toThrow(/nowhere/)
    rmSync(join(migrations, '0003_bad.sql'))
    const again = await openFolder(folder, migrations)
    expect(words(again.db)).toEqual(['good'])
    expect(schemaVersion(again.db)).toBe(2)
    again.close()
  })
})

describe('a migration', () => {
  it('is refused when it leaves a reference that points at nothing', () => {
    step(
      '0002_link.sql',
      'CREATE TABLE link (word_id INTEGER REFERENCES word (id)) STRICT; INSERT INTO link VALUES (7);',
    )
    const db = openDatabase(':memory:')
    expect(() => migrate(db, migrations)).toThrow(/1 broken/)
    expect(db.pragma('foreign_keys', { simple: true })).toBe(1)
    db.close()
  })

  it('may rebuild a table without losing the rows that point at it', () => {
    step('0002_link.sql', 'CREATE TABLE link (word_id INTEGER REFERENCES word (id) ON DELETE CASCADE) STRICT;')
    const db = openDatabase(':memory:')
    migrate(db, migrations)
    db.exec("INSERT INTO word VALUES (1, 'kept'); INSERT INTO link VALUES (1)")
    step(
      '0003_rebuild.sql',
      `CREATE TABLE new_word (id INTEGER PRIMARY KEY, text TEXT NOT NULL) STRICT;
      INSERT INTO new_word SELECT * FROM word; DROP TABLE word; ALTER TABLE new_word RENAME TO word;`,
    )
    migrate(db, migrations)
    expect(db.prepare('SELECT count(*) FROM link').pluck().get()).toBe(1)
    db.close()
  })
})

describe('the shipped schema', () => {
  it('has only strict tables, and a table for every noun', () => {
    const db = openDatabase(':memory:')
    migrate(db)
    const tables = db
      .prepare<[], { name: string; strict: number }>(
        "SELECT name, strict FROM pragma_table_list WHERE type = 'table' AND name NOT LIKE 'sqlite_%'",
      )
      .all()
    expect(tables.filter(({ strict }) => strict !== 1)).toEqual([])
    expect(tables.map(({ name }) => name)).toEqual(
      expect.arrayContaining(
        `site horizon glow telescope tube eyepiece person night visitors station wish object object_name story tour stop
         tour_proof mark phone setting`.split(/\s+/),
      ),
    )
    db.close()
  })
})
