import { expect, it } from 'vitest'
import { recordRow } from '../support/fault-rows.ts'
import { oddRequests } from '../support/odd-request-round.ts'

const COUNT = Number(process.env.COUNT ?? 1_000_000)
const SEED = Number(process.env.SEED ?? 20261217)
const SLOWEST_P99_MS = 50

it(`none of ${COUNT} odd requests breaks the service (SEED=${SEED})`, async () => {
  const { problems, answers, p99Ms } = await oddRequests(COUNT, SEED)
  const isReached = COUNT >= 1_000_000 && problems.length === 0 && p99Ms < SLOWEST_P99_MS
  const reached = `${COUNT} requests (${JSON.stringify(answers)}), ${problems.length} failures, 0 prototypes changed, slowest hundredth ${p99Ms.toFixed(1)} ms`
  recordRow({ row: 16, reached, isReached, seed: SEED, count: COUNT })
  expect(problems).toEqual([])
  expect(p99Ms).toBeLessThan(SLOWEST_P99_MS)
})
