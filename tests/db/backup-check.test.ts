import { closeSync, existsSync, mkdtempSync, openSync, readdirSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { backUp } from '../../db/backup.ts'
import { migrate } from '../../db/migrate.ts'
import { DATABASE_FILE, openDatabase } from '../../db/open.ts'
import { removeFolder } from '../support/desk-folder.ts'

it('a copy of a damaged database gets no name', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  const db = openDatabase(folder)
  migrate(db)
  const insert = db.prepare('INSERT INTO person (id, name) VALUES (?, ?)')
  for (let i = 0; i < 500; i++) insert.run(`person-${i}`, `Somebody with a long name, number ${i}`)
  const page = db.prepare<[], number>("SELECT rootpage FROM sqlite_schema WHERE name = 'person'").pluck().get() ?? 0
  const pageBytes = db.pragma('page_size', { simple: true }) as number
  db.close()
  const file = openSync(join(folder, DATABASE_FILE), 'r+')
  writeSync(file, Buffer.alloc(pageBytes, 7), 0, pageBytes, (page - 1) * pageBytes)
  closeSync(file)

  await expect(backUp(folder, 'manual.db')).rejects.toThrow(/damaged|malformed/)
  expect(existsSync(join(folder, 'backups/manual.db'))).toBe(false)
  expect(readdirSync(join(folder, 'backups'))).toEqual([])
  removeFolder(folder)
})
