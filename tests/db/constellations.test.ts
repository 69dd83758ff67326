import SqliteDatabase, { type Database } from 'better-sqlite3'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { attachCatalogue, ensureCatalogue } from '../../db/catalogue/load.ts'
import { constellationStore } from '../../db/constellations.ts'
import { starStore } from '../../db/stars.ts'
import { freshFolder, removeFolder, SLOW_MS } from '../support/desk-folder.ts'

const folder = freshFolder()
let db: Database
beforeAll(() => {
  db = new SqliteDatabase(':memory:')
  attachCatalogue(db, ensureCatalogue(folder))
}, SLOW_MS)
afterAll(() => {
  db.close()
  removeFolder(folder)
})

describe('the figures of the constellations', () => {
  it('are lines between stars that the table has', () => {
    const lines = constellationStore(db).lines()
    const hips = [...new Set(lines.flatMap((line) => line.hips))]
    expect(new Set(lines.map(({ constellation }) => constellation)).size).toBe(88)
    expect(lines.every((line) => line.hips.length > 1)).toBe(true)
    expect(starStore(db).ofHips(hips)).toHaveLength(hips.length)
  })

  it('hold the belt of Orion in one line', () => {
    const orion = constellationStore(db)
      .lines()
      .filter(({ constellation }) => constellation === 'Ori')
    // Alnitak, Alnilam and Mintaka.
    expect(orion.some(({ hips }) => [26727, 26311, 25930].every((hip) => hips.includes(hip)))).toBe(true)
  })
})
