import type { EveningSky } from './evening.ts'
import type { EveningChance } from './evening-chance.ts'
import type { Grid } from './grid.ts'
import { gridOf } from './grid-make.ts'
import type { Night } from './night.ts'
import { noticesOf } from './notices.ts'
import { advanceSearch, beginSearch, type Search } from './solver.ts'
import { sparesOf } from './spares.ts'
import { stopsOf } from './stops.ts'
import type { ShowObject } from './target.ts'
import type { Remark, Spare, Stop } from './tour.ts'
import { roomFor, valueOfPlan } from './value.ts'

export interface TourInput {
  readonly night: Night
  readonly objects: readonly ShowObject[]
  readonly sky: EveningSky
  readonly chance: EveningChance
  readonly seed: number
}

/** A programme in the making: plain data, changed by `advance` alone. */
export interface TourWork {
  readonly input: TourInput
  readonly grid: Grid
  readonly search: Search
}

export interface BuiltTour {
  readonly stops: readonly Stop[]
  readonly spares: readonly Spare[]
  /** Looks of full worth, less moving and sameness. */
  readonly value: number
  /** An upper limit of the value, or null while none is proved. */
  readonly bound: number | null
  readonly notices: readonly Remark[]
}

/** Steps that give a good programme for a row of four in about a second. */
export const DEFAULT_STEPS = 400_000

/** Reckons the night once and begins the search. A night without a telescope, or with nothing to see, begins one with nothing to do. */
export function beginTour(input: TourInput): TourWork {
  const grid = gridOf(input)
  return { input, grid, search: beginSearch(grid, input.seed) }
}

/** Tries so many changes; false when nothing is left to try. Slices add up: twice 500 steps are the same as 1000. */
export const advance = (work: TourWork, steps: number): boolean => advanceSearch(work.grid, work.search, steps)

/** The best programme found so far, with its spares and the rules that had to give way. */
export function finishTour({ input, grid, search }: TourWork): BuiltTour {
  const plan = search.best
  const stops = stopsOf(input, grid, plan)
  return {
    stops,
    spares: sparesOf(input, grid, stops),
    value: valueOfPlan(grid, plan, roomFor(grid)),
    bound: null,
    notices: noticesOf(input, grid, plan),
  }
}
