import { heldGrid, type UnderWay, underWay } from './again.ts'
import { againStops, withInstead } from './again-stops.ts'
import { advanceParts, beginParts, type Proof } from './bound-parts.ts'
import type { Again } from './course.ts'
import type { EveningSky } from './evening.ts'
import type { EveningChance } from './evening-chance.ts'
import type { Grid } from './grid.ts'
import { openGridOf, wishedGrid } from './grid-make.ts'
import type { Night } from './night.ts'
import { noticesOf } from './notices.ts'
import { advanceSearch, beginSearch, type Search } from './solver.ts'
import { sparesOf } from './spares.ts'
import { stopsOf } from './stops.ts'
import type { ShowObject } from './target.ts'
import type { Remark, Spare, Stop } from './tour.ts'
import { breachWeight, roomFor, valueOfPlan } from './value.ts'
import type { Wish } from './wish.ts'

export interface TourInput {
  readonly night: Night
  readonly objects: readonly ShowObject[]
  readonly sky: EveningSky
  readonly chance: EveningChance
  readonly seed: number
  readonly wishes?: readonly Wish[]
  /** The night is under way, or there is news of it; without it the whole evening is planned. */
  readonly again?: Again | null
}

/** A programme in the making: plain data, changed by `advance` alone. */
export interface TourWork {
  readonly input: TourInput
  /** All that can be shown, and what the host's wishes leave of it. */
  readonly open: Grid
  /** The night under way; null before it begins. */
  readonly under: UnderWay | null
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

/** Rounds that prove most of what can be proved, in 20 seconds for a row of eight. */
export const PROOF_ROUNDS = 2400

/** Steps that give a good programme for a row of four in about a second. */
export const DEFAULT_STEPS = 400_000
/** Steps for the rest of a night under way, in well under a second: most of it stands already. */
export const AGAIN_STEPS = 80_000

/** Reckons the night once and begins the search. A night without a telescope, or with nothing to see, begins one with nothing to do. */
export function beginTour(input: TourInput): TourWork {
  const keepKeys = (input.again?.stops ?? []).map(({ targetKey }) => targetKey)
  return workOn(input, openGridOf({ ...input, keepKeys }))
}

/** The same on a grid that was reckoned before, for the wishes with which that was done or some of them. */
export function workOn(input: TourInput, open: Grid): TourWork {
  const { night, again, wishes = [] } = input
  const under = again ? underWay(open, input, again) : null
  const wished = wishedGrid(under?.world ?? open, night, wishes)
  const grid = again && under ? heldGrid(wished, again, under) : wished
  return { input, open: under?.world ?? open, under, grid, search: beginSearch(grid, input.seed) }
}

/** Tries so many changes; false when nothing is left to try. Slices add up: twice 500 steps are the same as 1000. */
export const advance = (work: TourWork, steps: number): boolean => advanceSearch(work.grid, work.search, steps)

/** The best programme found so far, with its spares and the rules that had to give way. */
export function finishTour({ input, open, under, grid, search }: TourWork): BuiltTour {
  const plan = search.best
  const planned = stopsOf(input, grid, plan)
  const stops =
    input.again && under
      ? againStops(
          planned.map((stop) => withInstead(input, under, stop)),
          input.again,
        )
      : planned
  return {
    stops,
    spares: sparesOf(input, spareGrid(input, open), stops),
    value: valueOfPlan(grid, plan, roomFor(grid)),
    bound: null,
    notices: noticesOf(input, grid, plan, under?.now ?? 0),
  }
}

/** A proof of how good the programme of a search is, that has not begun. */
export const beginProof = ({ grid }: TourWork): Proof => beginParts(grid)

/** Sharpens the limit by so many rounds; false when more would bring nothing. */
export const advanceProof = ({ grid, search }: TourWork, proof: Proof, rounds: number): boolean =>
  advanceParts(grid, proof, search.bestScore, rounds)

/** What no programme of the night is worth more than, in the looks of `value`; null before the first round. */
export function limitOf({ grid, search }: TourWork, { least }: Proof): number | null {
  return Number.isFinite(least) ? least + breachWeight(grid, search.best) : null
}

/** What is spare is whatever is not barred: a station that is kept for one thing needs others when that is clouded. */
const spareGrid = ({ wishes = [], night }: TourInput, open: Grid): Grid =>
  wishedGrid(
    open,
    night,
    wishes.filter(({ kind }) => kind === 'bar'),
  )
