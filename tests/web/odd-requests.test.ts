import { expect, it } from 'vitest'
import { oddRequests } from '../support/odd-request-round.ts'

const COUNT = 2_000
const SEED = Number(process.env.SEED ?? 20261217)

it(`none of ${COUNT} odd requests breaks the service (SEED=${SEED})`, async () => {
  const seen = await oddRequests(COUNT, SEED)
  expect(seen.problems).toEqual([])
  // Enough of them come as far as a route, or nothing would be tried.
  expect(seen.answers['2xx'] ?? 0).toBeGreaterThan(COUNT / 20)
  expect(seen.answers['4xx'] ?? 0).toBeGreaterThan(COUNT / 4)
})
