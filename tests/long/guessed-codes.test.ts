import { beforeAll, expect, it } from 'vitest'
import { recordRow } from '../support/fault-rows.ts'
import { type AttackSeen, attackCodes, CODES, TRIES_A_MINUTE } from '../support/guessed-codes.ts'

const SEED = Number(process.env.SEED ?? 20261217)
const HOURS = 10
const LONGEST_ODDS = 1e-6
const LONGEST_JOIN_MS = 2_000

let seen: AttackSeen
beforeAll(async () => {
  seen = await attackCodes(HOURS * 60, SEED)
}, 3_600_000)

it(`a typed code is hardly guessed by fifty addresses in ${HOURS} hours (SEED=${SEED})`, () => {
  const odds = seen.lookedAt / CODES
  const reached = `${seen.lookedAt} of ${seen.sent} tries looked at, ${seen.guessed} right, odds ${odds.toExponential(1)} in ${seen.minutes / 60} simulated h`
  console.log(`SEED=${SEED}: ${reached}`)
  const isReached = seen.guessed === 0 && odds < LONGEST_ODDS
  recordRow({ row: 18, part: 'odds', reached, isReached, seed: SEED, count: seen.sent })
  expect(seen.guessed).toBe(0)
  expect(odds).toBeLessThan(LONGEST_ODDS)
})

it('few tries are looked at in a minute', () => {
  const { lookedAt, minutes, fullestMinute, fullestLater, fullestTen } = seen
  const reached = `${(lookedAt / minutes).toFixed(1)} a minute, at most ${fullestLater} after the first minute and ${fullestTen} in any ten; ${fullestMinute} in the first, since an address that is new is never kept waiting`
  console.log(`SEED=${SEED}: ${reached}`)
  const isReached = fullestMinute <= TRIES_A_MINUTE
  recordRow({ row: 18, part: 'tries a minute', reached, isReached, seed: SEED, count: lookedAt })
  expect(fullestLater).toBeLessThanOrEqual(TRIES_A_MINUTE)
  expect(fullestTen).toBeLessThanOrEqual(10 * TRIES_A_MINUTE)
})

it('honest phones join at once all the while', () => {
  const times = seen.honest.map(({ tookMs }) => tookMs ?? Number.POSITIVE_INFINITY).sort((a, b) => a - b)
  const p99Ms = times[Math.ceil(0.99 * times.length) - 1] ?? Number.POSITIVE_INFINITY
  const slipped = [1, 2, 3].map((slips) => seen.honest.filter((phone) => phone.slips === slips).length)
  const scanned = seen.honest.filter(({ hasScanned }) => hasScanned).length
  const reached = `p99 ${Math.round(p99Ms)} ms of ${times.length} phones, of which ${slipped.join(', ')} after 1, 2, 3 slips; ${scanned} were told to wait and scanned instead`
  console.log(`SEED=${SEED}: ${reached}`)
  recordRow({
    row: 18,
    part: 'honest joins',
    reached,
    isReached: p99Ms < LONGEST_JOIN_MS,
    seed: SEED,
    count: times.length,
  })
  // The very last phones may still be typing when the attack ends.
  expect(times.filter((ms) => ms === Number.POSITIVE_INFINITY).length).toBeLessThan(3)
})
