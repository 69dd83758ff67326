import { expect, it } from 'vitest'
import { SLOW_MS } from '../support/desk-folder.ts'
import { attackCodes, CODES, TRIES_A_MINUTE } from '../support/guessed-codes.ts'

it('fifty guessers get few codes looked at, and keep no honest phone out', { timeout: SLOW_MS }, async () => {
  const seen = await attackCodes(21, 7)
  expect(seen.guessed).toBe(0)
  expect(seen.lookedAt / CODES).toBeLessThan(1e-8)
  expect(seen.fullestLater).toBeLessThanOrEqual(TRIES_A_MINUTE)
  expect(seen.fullestTen).toBeLessThanOrEqual(10 * TRIES_A_MINUTE)
  expect(seen.honest.filter(({ tookMs }) => tookMs !== null).length).toBeGreaterThanOrEqual(20)
})
