import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Database } from 'better-sqlite3'
import { MIGRATIONS, migrate, newestSchema, schemaVersion } from '../../db/migrate.ts'
import { DATABASE_FILE, openDatabase } from '../../db/open.ts'
import { removeFolder } from './desk-folder.ts'
import { GOLDEN_ROWS } from './golden-rows.ts'

const files = readdirSync(MIGRATIONS)
  .filter((name) => name.endsWith('.sql'))
  .sort()
export const NEWEST = newestSchema()

/** A place in an upgrade: a folder that begins at a version, and so many whole statements of one migration. */
export interface Place {
  readonly from: number
  readonly migration: number
  readonly statements: number
}

/** The statements of a migration, without its comments. */
const statementsOf = (migration: number): readonly string[] =>
  readFileSync(join(MIGRATIONS, files[migration - 1] ?? ''), 'utf8')
    .replaceAll(/--.*$/gm, '')
    .split(';')
    .map((sql) => sql.trim())
    .filter((sql) => sql !== '')

/** Every place of every upgrade: before the first statement of a migration, after it, after the second ... */
export const PLACES: readonly Place[] = Array.from({ length: NEWEST }, (_, from) => from).flatMap((from) =>
  Array.from({ length: NEWEST - from }, (_, i) => from + i + 1).flatMap((migration) =>
    Array.from({ length: statementsOf(migration).length + 1 }, (_, statements) => ({ from, migration, statements })),
  ),
)

/** Each statement of each migration once, from the version just before it. */
export const STEPS = PLACES.filter(({ from, migration }) => from === migration - 1)

/** Opens a folder without waiting for the disk, which nothing here cuts off. */
export function openQuickly(folder: string): Database {
  const db = openDatabase(folder)
  db.pragma('synchronous = OFF')
  return db
}

/** All that a database holds: its version, its schema and every row. */
export function wholeOf(db: Database): string {
  const schema = db
    .prepare<[], { name: string; type: string; sql: string }>(
      "SELECT name, type, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%' ORDER BY type, name",
    )
    .all()
  const rows = schema
    .filter(({ type }) => type === 'table')
    .map(({ name }) => [name, db.prepare(`SELECT * FROM "${name}"`).all()])
  return JSON.stringify({ version: schemaVersion(db), schema, rows })
}

/** Golden folders of every version, and what an upgrade that nothing disturbs makes of each. */
export function openUpgrades() {
  const work = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  const upTo = (version: number) => join(work, `migrations-${version}`)
  for (let version = 1; version <= NEWEST; version++) {
    mkdirSync(upTo(version))
    for (const name of files.slice(0, version)) copyFileSync(join(MIGRATIONS, name), join(upTo(version), name))
  }
  const golden = Array.from({ length: NEWEST + 1 }, (_, version) => {
    const folder = join(work, `golden-${version}`)
    mkdirSync(folder)
    const db = openQuickly(folder)
    if (version > 0) migrate(db, upTo(version))
    for (const { since, sql } of GOLDEN_ROWS) if (since <= version) db.exec(sql)
    db.close()
    return folder
  })
  const undisturbed = new Map<string, string>()

  function copyOf(version: number): string {
    const folder = mkdtempSync(join(work, 'copy-'))
    copyFileSync(join(golden[version] ?? '', DATABASE_FILE), join(folder, DATABASE_FILE))
    return folder
  }
  return {
    copyOf,
    remove: () => removeFolder(work),
    /** What a golden folder holds after a whole upgrade. */
    whole(from: number, to: number): string {
      const known = undisturbed.get(`${from}-${to}`)
      if (known !== undefined) return known
      const db = openQuickly(copyOf(from))
      if (to > from) migrate(db, upTo(to))
      const whole = wholeOf(db)
      db.close()
      undisturbed.set(`${from}-${to}`, whole)
      return whole
    },
    /** Migrations that go on to a place and then run `last`. */
    brokenAt({ migration, statements }: Place, last: string): string {
      const folder = mkdtempSync(join(work, 'broken-'))
      for (const name of files.slice(0, migration - 1)) copyFileSync(join(MIGRATIONS, name), join(folder, name))
      const done = statementsOf(migration).slice(0, statements)
      writeFileSync(join(folder, files[migration - 1] ?? ''), [...done, last].join(';\n'))
      return folder
    },
    forget: (...folders: string[]) => {
      for (const folder of folders) rmSync(folder, { recursive: true })
    },
  }
}
export type Upgrades = ReturnType<typeof openUpgrades>

/** What is wrong with a folder after an upgrade that broke off at a place; it is upgraded to the end by that. */
export function problemsAfter(upgrades: Upgrades, place: Place, folder: string): readonly string[] {
  const db = openQuickly(folder)
  try {
    const isOld = wholeOf(db) === upgrades.whole(place.from, place.migration - 1)
    migrate(db)
    const isNew = wholeOf(db) === upgrades.whole(place.from, NEWEST)
    const isSound = db.pragma('integrity_check', { simple: true }) === 'ok'
    const isLinked = (db.pragma('foreign_key_check') as unknown[]).length === 0
    const where = JSON.stringify(place)
    return [
      isOld ? '' : `${where}: neither the old state nor the new`,
      isNew ? '' : `${where}: the next start does not end as an upgrade does that nothing disturbed`,
      isSound && isLinked ? '' : `${where}: damaged`,
    ].filter((problem) => problem !== '')
  } finally {
    db.close()
  }
}
