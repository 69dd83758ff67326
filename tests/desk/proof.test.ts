import { setTimeout as later } from 'node:timers/promises'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import type { Night } from '../../server/tours/night.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'

const folder = freshFolder()
let desk: Desk
let night: Night
beforeAll(async () => {
  desk = await openDesk(folder, { proofRounds: 120 })
  night = seedEvening(desk, north)
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

it(
  'is answered before its limit is proved, and bears it a while later, above its value',
  async () => {
    const built = await desk.tours.build(night.id, { steps: 30_000 })
    expect(built.bound).toBeNull()
    let bound: number | null = null
    for (let k = 0; k < 200 && bound === null; k++) {
      await later(100)
      bound = desk.tours.find(built.id).bound
    }
    expect(bound).not.toBeNull()
    expect(bound).toBeGreaterThanOrEqual(built.value - 1e-9)
    expect(bound).toBeLessThan(built.value * 1.2)
    expect(desk.tours.find(built.id).stops).toEqual(built.stops)
  },
  SLOW_MS,
)

it('gives way to whoever waits: a page is answered while it is being proved', async () => {
  await desk.tours.build(night.id, { steps: 100, seed: 2 })
  const checks = await desk.checks.evening(night.id)
  expect(checks.length).toBeGreaterThan(0)
})
