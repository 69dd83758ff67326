import { type TourInput, workOn } from '../tours/build.ts'
import type { Grid } from '../tours/grid.ts'
import { openGridOf } from '../tours/grid-make.ts'
import { stopsOf } from '../tours/stops.ts'
import { conflictsOf, type WishConflict } from '../tours/wish-conflicts.ts'
import { lossOf, type Scored, type WishCost } from '../tours/wish-cost.ts'
import type { EveningShelf } from './evening-shelf.ts'
import type { JobKinds } from './job-kinds.ts'
import { eveningSlices, type Slices, searchSlices } from './job-slices.ts'

/** Finds the wishes that cannot be met. */
export function* conflictSlices(
  { night, own, wishes }: JobKinds['wish-conflicts']['asked'],
  evenings: EveningShelf,
): Slices<readonly WishConflict[]> {
  const ready = yield* eveningSlices(night, own, evenings)
  return conflictsOf({ night, ...ready, wishes })
}

/** Searches once with all wishes and once without each, by the same seed and steps. */
export function* costSlices(
  { night, own, wishes, seed, steps }: JobKinds['wish-costs']['asked'],
  evenings: EveningShelf,
): Slices<readonly WishCost[]> {
  const ready = yield* eveningSlices(night, own, evenings)
  const input = { night, ...ready, seed, wishes }
  const open = openGridOf(input)
  yield
  const withAll = yield* scoredSlices(input, open, steps)
  const costs: WishCost[] = []
  for (const { id } of wishes) {
    const others = wishes.filter((other) => other.id !== id)
    const without = yield* scoredSlices({ ...input, wishes: others }, open, steps)
    costs.push({ wishId: id, loss: lossOf(without, withAll) })
  }
  return costs
}

function* scoredSlices(input: TourInput, open: Grid, steps: number): Slices<Scored> {
  const work = workOn(input, open)
  yield* searchSlices(work, steps)
  return { stops: stopsOf(input, work.grid, work.search.best), score: work.search.bestScore }
}
