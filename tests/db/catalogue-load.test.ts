import { existsSync, mkdtempSync, readdirSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { attachCatalogue, catalogueDigest, ensureCatalogue } from '../../db/catalogue/load.ts'
import { openDatabase, sqliteFacts } from '../../db/open.ts'
import { A_FEW_OBJECTS, A_STORY } from '../support/catalogue-data.ts'

const SLOW_MS = 120_000
const written = { outreach: A_FEW_OBJECTS, stories: [A_STORY], events: {}, names: {}, texts: {}, topics: {} }
let folder = ''
let path = ''

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'duskrow-catalogue-'))
  writeFileSync(join(folder, 'catalogue-0123456789abcdef.db'), 'of another list')
  path = ensureCatalogue(folder, written)
}, SLOW_MS)
afterAll(() => rmSync(folder, { recursive: true, force: true }))

it('builds one file named after its digest, clears the one of another list away, and leaves nothing else behind', () => {
  expect(basename(path)).toMatch(/^catalogue-[0-9a-f]{16}\.db$/)
  expect(readdirSync(folder)).toEqual([basename(path)])
})

it('builds it once', () => {
  const { mtimeMs, ino } = statSync(path)
  expect(ensureCatalogue(folder, written)).toBe(path)
  expect(statSync(path)).toMatchObject({ mtimeMs, ino })
})

it('attaches it beside the main file, for reading only, and leaves the journal of the main file alone', () => {
  const db = openDatabase(folder)
  try {
    attachCatalogue(db, path)
    expect(path).toContain(catalogueDigest(db))
    for (const change of [
      "UPDATE catalogue.entry SET name = 'x'",
      'DELETE FROM catalogue.star',
      "INSERT INTO catalogue.entry_text (rowid, name, other) VALUES (9999999, 'x', 'y')",
      'DROP TABLE catalogue.place',
    ]) {
      expect(() => db.exec(change), change).toThrow(/readonly/)
    }
    db.exec('CREATE TABLE kept (a TEXT) STRICT')
    db.transaction(() => db.exec("INSERT INTO kept SELECT name FROM catalogue.entry WHERE key = 'm13'"))()
    expect(db.prepare('SELECT a FROM kept').pluck().all()).toEqual([A_FEW_OBJECTS[0]?.name])
    expect(sqliteFacts(db)).toMatchObject({ journalMode: 'wal', synchronous: 2 })
    expect(db.pragma('catalogue.quick_check', { simple: true })).toBe('ok')
    expect(db.pragma('catalogue.foreign_key_check')).toEqual([])
  } finally {
    db.close()
  }
})

it(
  'builds a file anew that was cut short, and throws away a half-built one',
  () => {
    truncateSync(path, 8192)
    writeFileSync(`${path}.part`, 'half')
    expect(ensureCatalogue(folder, written)).toBe(path)
    expect(statSync(path).size).toBeGreaterThan(1_000_000)
    expect(existsSync(`${path}.part`)).toBe(false)
  },
  SLOW_MS,
)

it('holds for one list alone: for another one it is built anew', () => {
  const asBuilt = () => {
    throw new Error('It is being built')
  }
  expect(ensureCatalogue(folder, written, asBuilt)).toBe(path)
  const other = { ...written, outreach: A_FEW_OBJECTS.slice(1) }
  expect(() => ensureCatalogue(folder, other, asBuilt)).toThrow('It is being built')
})
