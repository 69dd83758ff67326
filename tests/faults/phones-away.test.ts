import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { FieldService } from '../browser/offline-service.ts'
import { type AwayCrowd, awayCrowd } from '../support/away-crowd.ts'
import { SLOW_MS } from '../support/desk-folder.ts'

const CYCLES = 3
const PHONES = 40
const SEED = Number(process.env.SEED ?? 20261217)
/** By the phones' clocks, at once: as long as a phone waits by chance that is told that it is back. */
const WAITED_MS = 1_000
const service = new FieldService()
let crowd: AwayCrowd

beforeAll(async () => {
  await service.start()
  crowd = await awayCrowd(service, PHONES, SEED)
}, SLOW_MS)
afterAll(async () => {
  crowd?.end()
  await service.end()
})

describe('forty phones out of reach for ten seconds to half an hour', () => {
  it(`all know the same a second of theirs after their return, and were told nothing twice (${CYCLES} times, SEED=${SEED})`, async () => {
    for (let cycle = 0; cycle < CYCLES; cycle++) {
      const before = service.marks().length
      const acts = await crowd.goAway()
      await crowd.comeBack(WAITED_MS)
      await expect.poll(() => service.marks().length - before, { timeout: 10_000, interval: 10 }).toBe(acts)
      await expect.poll(crowd.behind, { timeout: 10_000, interval: 10 }).toBe(0)
      await crowd.askOnceMore()
      await expect.poll(crowd.apart, { timeout: 10_000, interval: 10 }).toBe(0)
    }
    expect(crowd.faults()).toEqual({ repeated: 0, missed: 0 })
  })
})
