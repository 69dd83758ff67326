import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Database } from 'better-sqlite3'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { openFolder } from '../../db/folder.ts'
import { MIGRATIONS, schemaVersion } from '../../db/migrate.ts'
import { openStores } from '../../server/desk/stores.ts'
import { A_NIGHT, A_SITE, A_TELESCOPE, A_TOUR } from '../support/field-data.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

/** A folder with the first migration alone, as the first version had it. */
function firstOnly(): string {
  const first = join(folder, 'first-migrations')
  mkdirSync(first)
  copyFileSync(join(MIGRATIONS, '0001_first.sql'), join(first, '0001_first.sql'))
  return first
}

const SETUPS = JSON.stringify(A_TOUR.stops[0]?.setups)

/** A site, telescope, night and programme written as the first version wrote them. */
function fillFirst(db: Database): void {
  db.exec(`
    INSERT INTO site VALUES ('site-1', 'Sheep meadow', 48.2, 11.6, 520, 'Europe/Berlin', 20);
    INSERT INTO horizon VALUES ('site-1', 0, 90, 12, 'oak');
    INSERT INTO glow VALUES ('site-1', 0, 350, 20, 1);
    INSERT INTO telescope VALUES ('telescope-1', 'Old eight inch', 'altaz-hand', 70, 70, 'side', 10, 85);
    INSERT INTO tube VALUES ('tube-1', 'telescope-1', 0, 'main', 'reflector', 203, 1200, 0.25, 0.8, 0);
    INSERT INTO eyepiece VALUES ('eyepiece-1', 'telescope-1', 0, 'wide', 25, 52, NULL);
    INSERT INTO person VALUES ('person-1', 'Ines');
    INSERT INTO night VALUES ('night-1', 'site-1', 'Moon over the meadow', '2026-11-20', '18:30', '21:30', 'planned',
      '${JSON.stringify(A_NIGHT.settings)}');
    INSERT INTO visitors VALUES ('night-1', 0, '18:30', 20, 15, 1);
    INSERT INTO station VALUES ('station-1', 'night-1', 0, 'By the oak', 'telescope', 'telescope-1', 'person-1', 0);
    INSERT INTO tour VALUES ('tour-1', 'night-1', 1, '2026-11-14T15:00:00.000Z', 'first', 1, 1000, 'abc', 90, 1.5, '[]', '[]');
    INSERT INTO stop VALUES ('tour-1', 0, 'station-1', 'm13', 'whole', '${SETUPS}', '2026-11-20T17:30:00.000Z',
      '2026-11-20T18:00:00.000Z', NULL, 0.8, 0.6, 30, '[]');
  `)
}

it('a folder of the first version keeps its site, kit, night and programme, and takes a Barlow from then on', async () => {
  const first = await openFolder(folder, firstOnly())
  fillFirst(first.db)
  first.close()

  const { db, close } = await openFolder(folder)
  expect(schemaVersion(db)).toBe(readdirSync(MIGRATIONS).length)
  const stores = openStores(db)
  expect(stores.sites.all()).toEqual([A_SITE])
  expect(stores.telescopes.all()).toEqual([A_TELESCOPE])
  expect(stores.nights.all()).toEqual([A_NIGHT])
  expect(stores.tours.find('tour-1')?.stops[0]?.setups).toEqual(A_TOUR.stops[0]?.setups)

  const factors = [{ id: 'factor-1', name: '2x Barlow', factor: 2 }]
  stores.telescopes.change({ ...A_TELESCOPE, factors })
  expect(stores.telescopes.find('telescope-1')).toEqual({ ...A_TELESCOPE, factors })
  expect(() => db.exec("INSERT INTO factor VALUES ('f', 'telescope-1', 1, 'x', 6)")).toThrow(/CHECK/)
  close()
})
