import { seededRandom } from '../sky/random.ts'
import { advanceBound, type Bound, beginBound } from './bound.ts'
import type { Grid, Plan } from './grid.ts'
import { change } from './solver-moves.ts'
import { breachWeight, type Room, roomFor, scoreOf, valueOfPlan } from './value.ts'

/** The search as plain data: the same seed and the same number of steps give the same plan, however they are sliced. */
export interface Search {
  readonly seed: number
  step: number
  plan: Plan
  score: number
  best: Plan
  bestScore: number
  /** Step at which the best plan was last bettered. */
  bettered: number
  /** What each station alone would show at sharper and sharper prices: where rounds begin. */
  readonly guide: Bound
}

/** Steps of one round of cooling, every so many rounds one that goes on at the best plan, and rounds without a better plan after which nothing is left to try. */
const ROUND_STEPS = 25_000
const ROUNDS_TO_BEST = 3
const GUIDE_ROUNDS = 8
const IDLE_ROUNDS = 18
/** Loss in looks that is taken lightly at the start of a round. */
const WARMTH_LOOKS = 3

/** A search that has not begun: every station shows what is on paper or, where that says nothing, the worthiest thing of each quarter. */
export function beginSearch(grid: Grid, seed: number): Search {
  const plan = firstPlan(grid)
  const score = scoreOf(grid, plan, roomFor(grid))
  return { seed, step: 0, plan, score, best: plan.slice(), bestScore: score, bettered: 0, guide: beginBound(grid) }
}

const firstPlan = ({ ranked, kept }: Grid): Plan =>
  Int16Array.from(ranked, ([worthiest], at) => ((kept[at] ?? -1) >= 0 ? (kept[at] ?? -1) : (worthiest ?? -1)))

/** Tries so many changes; false when six rounds have brought nothing better, or there is nothing to choose from. */
export function advanceSearch(grid: Grid, search: Search, steps: number): boolean {
  if (grid.candidates.length === 0 || grid.stations.length === 0 || grid.slots === 0) return false
  const room = roomFor(grid)
  for (let k = 0; k < steps; k++) {
    if (search.step - search.bettered > IDLE_ROUNDS * ROUND_STEPS) return false
    tryChange(grid, search, room)
  }
  return true
}

function tryChange(grid: Grid, search: Search, room: Room): void {
  const phase = (search.step % ROUND_STEPS) / ROUND_STEPS
  if (phase === 0) restart(grid, search, room)
  const random = seededRandom(Math.imul(search.step + 1, 0x9e3779b1) ^ search.seed)
  search.step++
  const plan = search.plan.slice()
  if (!change(grid, plan, random)) return
  const warmth = WARMTH_LOOKS * (1 - phase) ** 2
  const least = search.score + warmth * Math.log(Math.max(random(), Number.MIN_VALUE))
  // The rules only ever take away, so most changes are turned down before they are asked.
  const value = valueOfPlan(grid, plan, room)
  if (value < least) return
  const score = value - breachWeight(grid, plan)
  if (score < least) return
  search.plan = plan
  search.score = score
  if (score <= search.bestScore + 1e-9) return
  search.best = plan.slice()
  search.bestScore = score
  search.bettered = search.step
}

/** The first round begins with the worthiest things, every third at the best plan so far, the others where the guide has come to. */
function restart(grid: Grid, search: Search, room: Room): void {
  const round = search.step / ROUND_STEPS
  if (round === 0) return
  if (round % ROUNDS_TO_BEST === ROUNDS_TO_BEST - 1) {
    search.plan = search.best.slice()
    search.score = search.bestScore
    return
  }
  advanceBound(grid, search.guide, search.bestScore, GUIDE_ROUNDS)
  search.plan = search.guide.plan.slice()
  search.score = scoreOf(grid, search.plan, room)
}
