import { createRequire } from 'node:module'
import { advanceParts, beginParts } from '../../server/tours/bound-parts.ts'
import { PROOF_ROUNDS } from '../../server/tours/build.ts'
import type { Grid } from '../../server/tours/grid.ts'
import { gridOf } from '../../server/tours/grid-make.ts'
import { advanceSearch, beginSearch } from '../../server/tours/solver.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import { eveningOf } from './evenings.ts'
import { exactModel } from './exact-model.ts'
import { generatedNight } from './generated-nights.ts'
import { smallGrid } from './small-grid.ts'

/** What is used of the open solver, whose package declares its entry in a way that this compiler cannot call. */
type LoadHighs = () => Promise<{
  solve(model: string, options: { readonly mip_rel_gap: number }): { Status: string; ObjectiveValue: number }
}>
const loadHighs: LoadHighs = createRequire(import.meta.url)('highs')

/** A small night cut from a generated one: one to four stations, four or six quarters, six candidates; null where a quarter has nothing on offer. */
export function smallNight(number: number, objects: readonly ShowObject[]): Grid | null {
  const night = generatedNight(number)
  const grid = gridOf(eveningOf(night, objects))
  const stations = 1 + (number % 4)
  return smallGrid(grid, stations, stations > 2 ? 4 : 6, 6)
}

/** The score that a search of so many steps finds, the one that an open solver proves to be the best, and the limit that the bound proves. */
export async function compared(grid: Grid, steps = 400_000): Promise<{ found: number; exact: number; limit: number }> {
  const search = beginSearch(grid, 1)
  advanceSearch(grid, search, steps)
  const proof = beginParts(grid)
  advanceParts(grid, proof, search.bestScore, PROOF_ROUNDS)
  const highs = await loadHighs()
  const solution = highs.solve(exactModel(grid), { mip_rel_gap: 1e-7 })
  if (solution.Status !== 'Optimal') throw new Error(`The solver answered ${solution.Status}`)
  return { found: search.bestScore, exact: solution.ObjectiveValue, limit: proof.least }
}
