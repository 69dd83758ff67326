import { expect, it } from 'vitest'
import { recordRow } from '../support/fault-rows.ts'
import { savedFirst } from '../support/saved-first.ts'

const ACTS = Number(process.env.ACTS ?? 10_000)
const SEED = Number(process.env.SEED ?? 20261217)
const LEAST_ACTS = 10_000
/** Enough for a service that is wrong on purpose. */
const CARELESS_ACTS = 500

it(`each of ${ACTS} acts is synced to the disk before its answer leaves (SEED=${SEED})`, async () => {
  const { acks, syncs, mostTogether, early } = await savedFirst(ACTS, SEED, 'careful')
  const reached = `${acks} of ${ACTS} acts answered, ${early.length} before their sync, of ${syncs} syncs with ${mostTogether} acts at most`
  console.log(`SEED=${SEED}: ${reached}`)
  const isReached = acks === ACTS && acks >= LEAST_ACTS && early.length === 0
  recordRow({ row: 1, part: 'careful', reached, isReached, seed: SEED, count: acks })
  expect(early).toEqual([])
  expect(acks).toBe(ACTS)
})

it('a service that syncs no commit is seen to answer too early', async () => {
  const { acks, early } = await savedFirst(CARELESS_ACTS, SEED, 'careless')
  const reached = `${early.length} of ${acks} answers are seen to leave before their sync`
  console.log(`SEED=${SEED}: careless: ${reached}`)
  recordRow({ row: 1, part: 'careless mutant', reached, isReached: early.length > 0, seed: SEED, count: acks })
  expect(acks).toBe(CARELESS_ACTS)
  expect(early.length).toBeGreaterThan(0)
})
