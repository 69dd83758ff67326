import SqliteDatabase, { type Database } from 'better-sqlite3'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { attachCatalogue, ensureCatalogue } from '../../db/catalogue/load.ts'
import { objectStore } from '../../db/objects.ts'
import { type StarStore, starStore } from '../../db/stars.ts'
import { separationDeg } from '../../server/sky/angles.ts'
import { freshFolder, removeFolder, SLOW_MS } from '../support/desk-folder.ts'

const folder = freshFolder()
let db: Database
let stars: StarStore
let all: ReturnType<ReturnType<typeof objectStore>['stars']>
beforeAll(() => {
  db = new SqliteDatabase(':memory:')
  attachCatalogue(db, ensureCatalogue(folder))
  stars = starStore(db)
  all = objectStore(db).stars(8)
}, SLOW_MS)
afterAll(() => {
  db.close()
  removeFolder(folder)
})

describe('the stars around a place', () => {
  it.each([
    [56.75, 24.12, 0.92, 8],
    [0.1, 10, 2.5, 7],
    [359.9, -45, 2.5, 7],
    [250, 89.5, 2.5, 8],
    [30, -89.9, 1, 8],
    [113, 33, 22, 3.7],
    [5, 60, 40, 4.3],
  ])(
    'at %d, %d degrees are those of the whole table within %d degrees to V %d, brightest first',
    (raDeg, decDeg, radiusDeg, limitV) => {
      const found = stars.around({ raDeg, decDeg, radiusDeg, limitV })
      const within = all.filter(
        (star) => star.magnitude <= limitV && separationDeg(raDeg, decDeg, star.raDeg, star.decDeg) <= radiusDeg,
      )
      expect(found.length).toBeGreaterThan(0)
      expect(found.map(({ hip }) => hip)).toEqual(within.map(({ hip }) => hip))
    },
  )

  it('hold seven sisters that many people know by name', () => {
    const sisters = stars.around({ raDeg: 56.75, decDeg: 24.12, radiusDeg: 0.92, limitV: 6 }).map(({ hip }) => hip)
    expect(sisters).toEqual(expect.arrayContaining([17702, 17847, 17499, 17573, 17608, 17531, 17851]))
  })
})

describe('single stars', () => {
  it('come in the order of their numbers, without those that the table lacks', () => {
    expect(stars.ofHips([91262, 1, 24436, 999_999]).map(({ hip }) => hip)).toEqual([91262, 24436])
  })

  it('have their light and their other names under their key', () => {
    expect(stars.chart('hip91262')).toMatchObject({ magnitude: 0.03, bv: expect.closeTo(0, 1) })
    expect(stars.chart('m13')).toBeUndefined()
    expect(stars.otherNames('hip100453')).toEqual(expect.arrayContaining(['Gamma Cygni', 'HIP 100453']))
    expect(stars.otherNames('nothing')).toEqual([])
  })
})
