import { afterAll, beforeAll, expect, it } from 'vitest'
import { bundleTaker } from '../support/mark-folder.ts'
import { loggedNight, losePower } from '../support/power-loss.ts'

const SEED = Number(process.env.SEED ?? 20261217)
const STATES = 100
const WAYS = 4

let removeTaker: () => void
beforeAll(async () => {
  removeTaker = await bundleTaker()
})
afterAll(() => removeTaker())

/** Cuts so far apart that about a hundred states are looked at. */
async function lossOf(...night: Parameters<typeof loggedNight>) {
  const logged = await loggedNight(...night)
  return losePower(logged, SEED, Math.ceil((logged.calls.length * WAYS) / STATES))
}

it(`a cut of the power loses no acknowledged act and leaves nothing between (SEED=${SEED})`, async () => {
  const { states, problems } = await lossOf(60)
  expect(problems).toEqual([])
  expect(states).toBeGreaterThan(STATES / 2)
})

it.each(['careless', 'hasty'] as const)('the same cuts are seen to lose acts of a %s desk', async (manner) => {
  const { lost } = await lossOf(30, manner)
  expect(lost).toBeGreaterThan(0)
})
