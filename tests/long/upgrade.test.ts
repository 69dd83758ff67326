import { afterAll, beforeAll, expect, it } from 'vitest'
import { breakUpgrade, killUpgrade } from '../support/broken-upgrade.ts'
import { recordRow } from '../support/fault-rows.ts'
import { openUpgrades, PLACES, STEPS, type Upgrades } from '../support/upgrades.ts'

let upgrades: Upgrades
beforeAll(() => {
  upgrades = openUpgrades()
})
afterAll(() => upgrades.remove())

function record(part: string, count: number, problems: readonly string[]): void {
  const reached = `${count} places, ${problems.length} with something wrong`
  console.log(`${part}: ${reached}`)
  recordRow({ row: 11, part, reached, isReached: problems.length === 0, seed: null, count })
  expect(problems).toEqual([])
}

it(`a process killed at each statement of each migration leaves the old state whole (${STEPS.length} kills)`, () => {
  record(
    'killed',
    STEPS.length,
    STEPS.flatMap((place) => killUpgrade(upgrades, place)),
  )
})

it(`an upgrade from any version that fails after any statement leaves the state of a version (${PLACES.length})`, () => {
  record(
    'failed',
    PLACES.length,
    PLACES.flatMap((place) => breakUpgrade(upgrades, place)),
  )
})
