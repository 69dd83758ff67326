import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import SqliteDatabase from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { backUp } from '../../db/backup.ts'
import { copiesAmong, crowdedOut } from '../../db/copies.ts'
import { openFolder } from '../../db/folder.ts'
import { MIGRATIONS, newestSchema, schemaVersion } from '../../db/migrate.ts'
import { wishedFor, wishToGoBack } from '../../db/restore.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

/** Opens the folder, lets something be done, and closes it. */
async function visit<Result>(work: (open: Awaited<ReturnType<typeof openFolder>>) => Result): Promise<Result> {
  const open = await openFolder(folder)
  try {
    return await work(open)
  } finally {
    open.close()
  }
}
const name = (id: string) => visit(({ db }) => db.prepare('INSERT INTO person (id, name) VALUES (?, ?)').run(id, id))
const named = () => visit(({ db }) => db.prepare<[], string>('SELECT id FROM person ORDER BY id').pluck().all())
const namedIn = (path: string) => {
  const db = new SqliteDatabase(path, { readonly: true })
  const ids = db.prepare<[], string>('SELECT id FROM person ORDER BY id').pluck().all()
  db.close()
  return ids
}

async function copyWithAda(): Promise<string> {
  await name('ada')
  const copy = await backUp(folder, 'timed-2026-12-17T17-20-00-000Z.db')
  await name('bo')
  return copy
}

describe('going back to a copy', () => {
  it('puts it in the place of the database, which is copied and moved aside', async () => {
    const path = await copyWithAda()
    wishToGoBack(folder, path)
    const wentBack = await visit((open) => open.wentBack)
    expect(await named()).toEqual(['ada'])
    expect(wentBack).toMatchObject({ path, refusal: null })
    expect(namedIn(join(wentBack?.asideAt ?? '', 'duskrow.db'))).toEqual(['ada', 'bo'])
    expect(namedIn(wentBack?.copiedTo ?? '')).toEqual(['ada', 'bo'])
    expect([wishedFor(folder), await visit((open) => open.wentBack)]).toEqual([null, null])
  })

  it('takes what a killed service left in the journal along', async () => {
    const path = await copyWithAda()
    const open = await openFolder(folder)
    open.db.prepare("INSERT INTO person (id, name) VALUES ('cy', 'cy')").run()
    const journal = readFileSync(join(folder, 'duskrow.db-wal'))
    const file = readFileSync(join(folder, 'duskrow.db'))
    open.close()
    writeFileSync(join(folder, 'duskrow.db'), file)
    writeFileSync(join(folder, 'duskrow.db-wal'), journal)
    wishToGoBack(folder, path)
    const wentBack = await visit(({ wentBack }) => wentBack)
    expect(await named()).toEqual(['ada'])
    expect(namedIn(wentBack?.copiedTo ?? '')).toEqual(['ada', 'bo', 'cy'])
    expect(namedIn(join(wentBack?.asideAt ?? '', 'duskrow.db'))).toEqual(['ada', 'bo', 'cy'])
  })

  it('goes on where a killed process stopped: with the database moved aside, and with the copy in its place', async () => {
    const path = await copyWithAda()
    wishToGoBack(folder, path)
    renameSync(join(folder, 'duskrow.db'), join(folder, 'aside.db'))
    writeFileSync(join(folder, 'duskrow.db.restored.unfinished'), 'half of it')
    expect(await visit((open) => open.wentBack)).toMatchObject({ refusal: null, asideAt: null, copiedTo: null })
    expect(await named()).toEqual(['ada'])
    wishToGoBack(folder, path)
    expect(await visit((open) => open.wentBack)).toMatchObject({ refusal: null })
    expect(await named()).toEqual(['ada'])
    expect(readdirSync(folder).filter((file) => /restored|go-back/.test(file))).toEqual([])
  })

  it('goes on when the database of before is damaged, and keeps that too', async () => {
    const path = await copyWithAda()
    writeFileSync(join(folder, 'duskrow.db'), 'damaged beyond reading')
    wishToGoBack(folder, path)
    const wentBack = await visit((open) => open.wentBack)
    expect([await named(), wentBack?.copiedTo]).toEqual([['ada'], null])
    expect(readFileSync(join(wentBack?.asideAt ?? '', 'duskrow.db'), 'utf8')).toBe('damaged beyond reading')
  })

  it('opens as before where the copy cannot be laid ready, and forgets the wish', async () => {
    const path = await copyWithAda()
    wishToGoBack(folder, path)
    mkdirSync(join(folder, 'duskrow.db.restored'))
    expect(await visit((open) => open.wentBack)).toMatchObject({ path, refusal: 'unwritten', asideAt: null })
    expect([await named(), wishedFor(folder)]).toEqual([['ada', 'bo'], null])
  })

  it('counts copies from later than now, when the clock was ahead, as the oldest', () => {
    const hour = (day: number, h: number) => `timed-2026-12-${day}T${String(h).padStart(2, '0')}-00-00-000Z.db`
    const ahead = Array.from({ length: 10 }, (_, h) => hour(18, h))
    const copies = copiesAmong([...ahead, hour(17, 17)], new Date('2026-12-17T17:20:00Z'))
    expect(copies[0]?.name).toBe(hour(17, 17))
    expect(crowdedOut(copies).map((copy) => copy.name)).toEqual([hour(18, 0)])
  })

  it('migrates a copy of an older program', async () => {
    const first = join(folder, 'first')
    mkdirSync(first)
    copyFileSync(join(MIGRATIONS, '0001_first.sql'), join(first, '0001_first.sql'))
    const old = await openFolder(folder, first)
    old.db.exec("INSERT INTO person (id, name) VALUES ('ada', 'ada')")
    const path = await backUp(folder, 'timed-2026-12-17T17-20-00-000Z.db')
    old.close()
    await name('bo')
    wishToGoBack(folder, path)
    expect(await visit(({ db, wentBack }) => [wentBack?.refusal, schemaVersion(db)])).toEqual([null, newestSchema()])
    expect(await named()).toEqual(['ada'])
  })

  it.each([
    ['newer', (path: string) => alter(path, `PRAGMA user_version = ${newestSchema() + 1}`)],
    ['foreign', (path: string) => alter(path, 'PRAGMA foreign_keys = OFF; DROP TABLE mark')],
    ['damaged', (path: string) => writeFileSync(path, readFileSync(path).subarray(0, 20_000))],
    ['none', (path: string) => rmSync(path)],
  ] as const)('leaves everything as it is for a copy that is %s', async (refusal, spoil) => {
    const path = await copyWithAda()
    spoil(path)
    wishToGoBack(folder, path)
    const wentBack = await visit((open) => open.wentBack)
    expect(wentBack).toEqual({ path, refusal, asideAt: null, copiedTo: null })
    expect([await named(), wishedFor(folder)]).toEqual([['ada', 'bo'], null])
    expect(await visit(({ db }) => schemaVersion(db))).toBe(newestSchema())
  })
})

function alter(path: string, sql: string): void {
  const db = new SqliteDatabase(path)
  db.exec(sql)
  db.close()
}
