import { afterAll, beforeAll, expect, it } from 'vitest'
import { recordRow } from '../support/fault-rows.ts'
import { bundleTaker } from '../support/mark-folder.ts'
import { loggedNight, losePower } from '../support/power-loss.ts'

const SEED = Number(process.env.SEED ?? 20261217)
const ACTS = Number(process.env.ACTS ?? 300)
const LEAST_STATES = 5_000

let removeTaker: () => void
beforeAll(async () => {
  removeTaker = await bundleTaker()
})
afterAll(() => removeTaker())

it(`the power cut after every call of a night of ${ACTS} acts loses and invents nothing (SEED=${SEED})`, async () => {
  const { cuts, states, problems } = losePower(await loggedNight(ACTS), SEED)
  const reached = `${ACTS} acts, ${cuts} cuts, ${states} states, ${problems.length} with something wrong`
  console.log(`SEED=${SEED}: ${reached}`)
  const isReached = problems.length === 0 && states >= LEAST_STATES
  recordRow({ row: 3, part: 'careful', reached, isReached, seed: SEED, count: states })
  expect(problems).toEqual([])
  expect(states).toBeGreaterThanOrEqual(LEAST_STATES)
})

it.each(['careless', 'hasty'] as const)('every cut of a %s desk shows what it loses', async (manner) => {
  const { states, lost } = losePower(await loggedNight(60, manner), SEED)
  const reached = `${lost} of ${states} states are seen to lack an acknowledged act`
  console.log(`SEED=${SEED}: ${manner}: ${reached}`)
  recordRow({ row: 3, part: `${manner} mutant`, reached, isReached: lost > 0, seed: SEED, count: states })
  expect(lost).toBeGreaterThan(0)
})
