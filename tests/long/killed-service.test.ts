import { expect, it } from 'vitest'
import { shareOf } from '../bench/median.ts'
import { recordRow } from '../support/fault-rows.ts'
import { killRounds } from '../support/kill-rounds.ts'

const KILLS = Number(process.env.KILLS ?? 300)
const SEED = Number(process.env.SEED ?? 20261217)
const LEAST_KILLS = 300
const LEAST_ACKED = 30_000
const LONGEST_START_MS = 2_000

it(`a service killed under forty phones loses, invents and doubles nothing (${KILLS} kills, SEED=${SEED})`, async () => {
  const { kills, inOpening, acked, sentAgain, firstAnswersMs, problems } = await killRounds(KILLS, SEED)
  const [seed, wrong] = [SEED, problems.length]
  const reached = `${kills} kills, ${inOpening} of them while it opened, ${acked} acts answered as kept, ${sentAgain} sent again, ${wrong} lost, invented, doubled or otherwise wrong`
  const isReached = kills >= LEAST_KILLS && acked >= LEAST_ACKED && wrong === 0
  recordRow({ row: 2, part: 'marks', reached, isReached, seed, count: kills })

  const p99Ms = shareOf(firstAnswersMs, 0.99)
  const [p50, p99] = [shareOf(firstAnswersMs, 0.5), p99Ms].map((ms) => `${(ms / 1000).toFixed(2)} s`)
  const soon = `from a start to the first act answered as kept: half within ${p50}, 99 of 100 within ${p99} (2 s asked)`
  const isSoon = kills >= LEAST_KILLS && p99Ms < LONGEST_START_MS
  recordRow({ row: 2, part: 'restart', reached: soon, isReached: isSoon, seed, count: firstAnswersMs.length })
  console.log(`SEED=${SEED}: ${reached}\n${soon}`)
  expect(problems).toEqual([])
})
