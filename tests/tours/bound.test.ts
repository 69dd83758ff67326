import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../server/sky/random.ts'
import { advanceBound, type Bound, beginBound } from '../../server/tours/bound.ts'
import type { Grid, Plan } from '../../server/tours/grid.ts'
import type { Night } from '../../server/tours/night.ts'
import { advanceSearch, beginSearch } from '../../server/tours/solver.ts'
import { roomFor, scoreOf } from '../../server/tours/value.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'
import { eveningOf, openGridOn } from '../support/evenings.ts'

const gridFor = (night: Night): Grid => openGridOn(eveningOf(night))

const [northern, southern] = [gridFor(demoNight), gridFor(southernNight)]

/** Something on offer, or nothing, at every station in every quarter, by chance and in runs. */
function anyPlan(grid: Grid, random: () => number): Plan {
  let last = -1
  return Int16Array.from(grid.ranked, (offered, at) => {
    if (at % grid.slots === 0) last = -1
    if (!offered.includes(last) || random() < 0.3) last = offered[Math.floor(random() ** 2 * offered.length)] ?? -1
    return last
  })
}

function proved(grid: Grid, found: number, rounds: number): Bound {
  const bound = beginBound(grid)
  advanceBound(grid, bound, found, rounds)
  return bound
}

describe.each([
  ['the northern demo night', northern],
  ['the southern demo night', southern],
])('the upper limit of %s', (_name, grid) => {
  const search = beginSearch(grid, 1)
  advanceSearch(grid, search, 150_000)
  const bound = proved(grid, search.bestScore, 250)

  it('lies above the best programme found, by 3 % of its value at most', () => {
    expect(bound.least).toBeGreaterThanOrEqual(search.bestScore - 1e-9)
    expect(bound.least).toBeLessThanOrEqual(search.bestScore * 1.03)
  })

  it('lies above any programme at all, after any number of rounds', () => {
    const random = seededRandom(11)
    const limits = [1, 5, 30].map((rounds) => proved(grid, search.bestScore, rounds).least)
    expect(limits[0]).toBeGreaterThanOrEqual(limits[2] ?? 0)
    const room = roomFor(grid)
    for (let k = 0; k < 300; k++) {
      const score = scoreOf(grid, anyPlan(grid, random), room)
      expect(Math.min(...limits, bound.least)).toBeGreaterThanOrEqual(score - 1e-9)
    }
  })

  it('is the same however its rounds are sliced', () => {
    const sliced = beginBound(grid)
    for (let k = 0; k < 10; k++) advanceBound(grid, sliced, search.bestScore, 4)
    expect(sliced.least).toBe(proved(grid, search.bestScore, 40).least)
  })
})

it('is nothing where there is nothing to choose from', () => {
  const empty = gridFor({ ...demoNight, stations: [] })
  const bound = beginBound(empty)
  expect(advanceBound(empty, bound, 0, 10)).toBe(false)
  expect(bound.least).toBe(0)
})
