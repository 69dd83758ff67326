import { afterAll, beforeAll, expect, it } from 'vitest'
import { openFolder } from '../../db/folder.ts'
import { breakUpgrade, killUpgrade } from '../support/broken-upgrade.ts'
import { NEWEST, openQuickly, openUpgrades, STEPS, type Upgrades, wholeOf } from '../support/upgrades.ts'

let upgrades: Upgrades
beforeAll(() => {
  upgrades = openUpgrades()
})
afterAll(() => upgrades.remove())

it('has a row in every table of the newest golden folder', () => {
  const db = openQuickly(upgrades.copyOf(NEWEST))
  const tables = db.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all()
  const empty = tables.filter((name) => db.prepare(`SELECT count(*) FROM "${name}"`).pluck().get() === 0)
  db.close()
  expect(empty).toEqual([])
})

it(`an upgrade that fails after any statement leaves the old state whole (${STEPS.length} places)`, () => {
  expect(STEPS.flatMap((place) => breakUpgrade(upgrades, place))).toEqual([])
})

it.each([
  { from: 1, migration: 6, statements: 2 },
  { from: NEWEST - 1, migration: NEWEST, statements: 1 },
])('so does one that is killed: %o', (place) => expect(killUpgrade(upgrades, place)).toEqual([]))

it('refuses a file that is newer than the program, and leaves it as it was', async () => {
  const folder = upgrades.copyOf(NEWEST)
  const db = openQuickly(folder)
  db.pragma(`user_version = ${NEWEST + 1}`)
  const before = wholeOf(db)
  db.close()
  await expect(openFolder(folder)).rejects.toThrow(/newer/)
  const after = openQuickly(folder)
  expect(wholeOf(after)).toBe(before)
  after.close()
})
