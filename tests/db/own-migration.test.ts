import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { openFolder } from '../../db/folder.ts'
import { MIGRATIONS } from '../../db/migrate.ts'
import { ownObjectStore } from '../../db/own-objects.ts'
import { A_COMET_DRAFT, A_NOVA_DRAFT } from '../support/own-object-data.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

/** The migrations of the version that kept whole objects instead of what was typed. */
function before(): string {
  const old = join(folder, 'old-migrations')
  mkdirSync(old)
  for (const name of readdirSync(MIGRATIONS).sort().slice(0, 4)) cpSync(join(MIGRATIONS, name), join(old, name))
  return old
}

/** What that version made of a draft; it has left out columns that did not exist then. */
const objectOf = (draft: typeof A_COMET_DRAFT) => ({
  ...draft,
  designations: [],
  constellation: 'And',
  majorArcmin: draft.majorArcmin ?? null,
  minorArcmin: draft.majorArcmin ?? null,
  condensation: draft.condensation ?? null,
  distanceLy: null,
  atOnce: 1,
})

it('a folder of an older version keeps the comets and stars that a host entered, on the list and off it', async () => {
  const old = await openFolder(folder, before())
  const insert = old.db.prepare('INSERT INTO object (key, data) VALUES (?, ?)')
  insert.run('own-comet', JSON.stringify(objectOf(A_COMET_DRAFT)))
  insert.run('own-nova', JSON.stringify(objectOf(A_NOVA_DRAFT)))
  old.db.exec("INSERT INTO object_name (name, object_key) VALUES ('comet haberli', 'own-comet')")
  old.close()

  const { db, close } = await openFolder(folder)
  const store = ownObjectStore(db)
  expect(store.all().map(({ key, isListed, draft }) => [key, isListed, draft])).toEqual([
    ['own-comet', true, A_COMET_DRAFT],
    ['own-nova', false, A_NOVA_DRAFT],
  ])
  expect(store.called('Comet Häberli')?.object).toMatchObject({ constellation: 'And', minorArcmin: 12, shower: null })
  close()
})
