import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { nightHours } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import { draftOf } from '../../server/tours/night-draft.ts'
import { SKY_PARTS } from '../../server/tours/sky-part.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'

const folder = freshFolder()
let desk: Desk
let night: Night
beforeAll(async () => {
  desk = await openDesk(folder)
  night = seedEvening(desk, north)
  await desk.tours.build(night.id, { steps: 60 })
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

const programme = () => {
  const tour = desk.tours.current(night.id)
  if (!tour) throw new Error('The night has a programme')
  return tour
}

/** Turns of the thread that serves the pages while a promise is waited for. */
async function turnsDuring(promise: Promise<unknown>): Promise<number> {
  let [turns, isDone] = [0, false]
  promise.finally(() => {
    isDone = true
  })
  while (!isDone) {
    await new Promise((resolve) => setTimeout(resolve, 1))
    turns++
  }
  return turns
}

describe('a cloud hole at the desk', () => {
  it(
    'lists things for every telescope, needs no programme, and stays near its evening',
    async () => {
      const bare = seedEvening(desk, north)
      const { opensAt } = nightHours(bare)
      const hole = await desk.hole(bare.id, SKY_PARTS, new Date(0))
      expect(hole.at).toEqual(new Date(opensAt.getTime() - 1_800_000))
      const open = await desk.hole(bare.id, SKY_PARTS, new Date(opensAt.getTime() + 3_600_000))
      expect(open.stations.map(({ lines }) => lines.length)).toEqual(bare.stations.map(() => 3))
      await expect(desk.hole('none', SKY_PARTS, opensAt)).rejects.toMatchObject({ key: 'fault.no-night' })
    },
    SLOW_MS,
  )
})

describe('missing showpieces at the desk', () => {
  it(
    'are worked out away from the thread that serves the pages, and once for the same programme and night',
    async () => {
      const first = desk.missing(programme())
      expect(desk.missing(programme())).toBe(first)
      expect(await turnsDuring(first)).toBeGreaterThan(5)
      const missing = await first
      expect(missing.length).toBeGreaterThan(1)
      const shown = programme().stops.map(({ targetKey }) => targetKey)
      expect(missing.filter(({ targetKey }) => shown.includes(targetKey))).toEqual([])
      desk.nights.change(night.id, { ...draftOf(night), settings: { ...night.settings, stayMin: 60 } })
      expect(desk.missing(programme())).not.toBe(first)
      await desk.missing(programme())
    },
    SLOW_MS,
  )
})
