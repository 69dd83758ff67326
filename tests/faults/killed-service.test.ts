import { expect, it } from 'vitest'
import { SLOW_MS } from '../support/desk-folder.ts'
import { killRounds } from '../support/kill-rounds.ts'

const SEED = Number(process.env.SEED ?? Date.now() % 1_000_000)

it(`a service killed under forty phones keeps every answered act once and invents none (SEED=${SEED})`, {
  timeout: 3 * SLOW_MS,
}, async () => {
  const { acked, sentAgain, problems } = await killRounds(1, SEED)
  expect(problems).toEqual([])
  expect(acked).toBeGreaterThan(50)
  console.log(`SEED=${SEED}: ${acked} acts answered as kept, ${sentAgain} sent again, none lost`)
})
