import { expect, it } from 'vitest'
import { advanceParts, beginParts } from '../../server/tours/bound-parts.ts'
import { DEFAULT_STEPS, PROOF_ROUNDS } from '../../server/tours/build.ts'
import type { Grid } from '../../server/tours/grid.ts'
import { gridOf } from '../../server/tours/grid-make.ts'
import { advanceSearch, beginSearch } from '../../server/tours/solver.ts'
import { breachWeight, roomFor, valueOfPlan } from '../../server/tours/value.ts'
import { eveningOf, FOR_TELESCOPES } from '../support/evenings.ts'
import { generatedNight } from '../support/generated-nights.ts'

const objects = FOR_TELESCOPES
const NIGHTS = 60
/** As many rounds more as a patient proof takes. */
const OFFLINE_ROUNDS = 3000

function gridFor(number: number): Grid {
  const night = generatedNight(number)
  return gridOf(eveningOf(night, objects))
}

const per = (part: number): string => `${(100 * part).toFixed(2)} %`

function spread(parts: readonly number[]): string {
  const sorted = [...parts].sort((a, b) => a - b)
  return `median ${per(sorted[sorted.length >> 1] ?? 0)}, worst ${per(sorted.at(-1) ?? 0)}`
}

it('finds programmes within 1 % (median) of the best limit, and proves 2 % online', () => {
  const [found, proved, greedy]: number[][] = [[], [], []]
  for (let number = 0; number < NIGHTS; number++) {
    const grid = gridFor(number)
    const search = beginSearch(grid, 1)
    const first = valueOfPlan(grid, search.best, roomFor(grid))
    advanceSearch(grid, search, DEFAULT_STEPS)
    const value = search.bestScore + breachWeight(grid, search.best)
    const proof = beginParts(grid)
    advanceParts(grid, proof, search.bestScore, PROOF_ROUNDS)
    const online = proof.least
    advanceParts(grid, proof, search.bestScore, OFFLINE_ROUNDS)
    const best = proof.least
    const gap = (limit: number, score: number): number => Math.max(0, limit - score) / Math.max(1, value)
    found?.push(gap(best, search.bestScore))
    proved?.push(gap(online, search.bestScore))
    greedy?.push(gap(best, first))
    console.log(
      `night ${number}: ${grid.stations.length} telescopes, ${grid.slots} quarters, value ${value.toFixed(1)}, ` +
        `found ${per(found?.at(-1) ?? 0)}, proved ${per(proved?.at(-1) ?? 0)}, greedy ${per(greedy?.at(-1) ?? 0)}`,
    )
    expect(best).toBeGreaterThanOrEqual(search.bestScore - 1e-6)
  }
  console.log(
    `found: ${spread(found ?? [])}; proved: ${spread(proved ?? [])}; greedy value below: ${spread(greedy ?? [])}`,
  )
  const sorted = (parts: number[] | undefined): number[] => [...(parts ?? [])].sort((a, b) => a - b)
  expect(sorted(found)[NIGHTS >> 1]).toBeLessThanOrEqual(0.01)
  expect(sorted(proved)[NIGHTS >> 1]).toBeLessThanOrEqual(0.02)
  expect(sorted(found).at(-1)).toBeLessThanOrEqual(0.02)
  expect(sorted(proved).at(-1)).toBeLessThanOrEqual(0.04)
})
