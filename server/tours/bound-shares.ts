import { AGAIN_BY_KIND, SAME_KIND_LOOKS, SAME_TARGET_LOOKS } from './alike.ts'
import { eyesOf } from './bound-runs.ts'
import { cellAt, type Grid } from './grid.ts'
import { ANYONE, isShowpiece, LAST_SLOTS, mostDifferent, weightOf } from './rules.ts'

/** A rule that so many stations must serve in a quarter. */
interface Duty {
  readonly weight: number
  /** By slot: how many stations must, and whether more can than must, so that it is a matter of price who does. */
  readonly need: readonly number[]
  readonly isPriced: readonly boolean[]
  /** By slot: how many too few can serve it whatever is shown. */
  readonly short: readonly number[]
  readonly serves: (station: number, candidate: number, slot: number) => boolean
  /** By station * slots + slot: true where the station is one of no more than are needed. */
  readonly isBound: readonly boolean[]
}

/** Things of which a quarter should not show many at a time: the same target, or the same kind. */
export interface Crowd {
  /** By candidate. */
  readonly groupOf: ArrayLike<number>
  readonly groups: number
  /** What it costs a quarter to show so many of a group, at a price for each that is not the first. */
  readonly cost: (group: number, shown: number, alike: number) => number
  /** The most that one more of them can cost. */
  readonly steepest: number
}

/** All that the stations of a night share, reckoned once. */
export interface Shares {
  readonly eyes: Float64Array
  readonly duties: readonly Duty[]
  readonly crowds: readonly Crowd[]
  /** By target: its kind. */
  readonly kindOfTarget: readonly number[]
  readonly kinds: number
  /** How many stations of a quarter may show what another one shows. */
  readonly alikeSpare: number
  /** By station: true when it is a neighbour of the one before it in the row. */
  readonly isBeside: readonly boolean[]
}

export function sharesOf(grid: Grid): Shares {
  const kindOfTarget: number[] = []
  for (const [c, target] of grid.targetOf.entries()) kindOfTarget[target] = grid.kindOf[c] ?? 0
  return {
    eyes: eyesOf(grid),
    duties: DUTIES.map((asked) => dutyOf(grid, asked)),
    crowds: [sameTargets(grid), sameKinds(grid)],
    kindOfTarget,
    kinds: AGAIN_BY_KIND.length,
    alikeSpare: grid.stations.length - mostDifferent(grid.stations.length),
    isBeside: grid.stations.map(({ place }, s) => s > 0 && place - (grid.stations[s - 1]?.place ?? 0) === 1),
  }
}

interface AskedDuty {
  readonly rule: string
  readonly need: (grid: Grid, slot: number) => number
  readonly serves: (grid: Grid, station: number, candidate: number, slot: number) => boolean
}

const DUTIES: readonly AskedDuty[] = [
  {
    rule: 'rule.moon-always',
    need: (grid, t) => (grid.isMoonUp[t] && grid.stations.length > 1 ? 1 : 0),
    serves: (grid, _s, c) => grid.candidates[c]?.kind === 'moon',
  },
  {
    rule: 'rule.anyone-sees',
    need: (grid) => Math.ceil(grid.stations.length / 4),
    serves: (grid, s, c, t) => (grid.chance[cellAt(grid, s, c, t)] ?? 0) >= ANYONE,
  },
  bestFor('isForChair'),
  bestFor('isForChildren'),
  {
    rule: 'rule.last-showpiece',
    need: (grid, t) => (t >= grid.slots - LAST_SLOTS ? 1 : 0),
    serves: isShowpiece,
  },
]

function bestFor(whom: 'isForChair' | 'isForChildren'): AskedDuty {
  return {
    rule: 'rule.best-for-all',
    need: (grid) => (grid.stations.some((station) => station[whom]) ? 1 : 0),
    serves: (grid, s, c, t) => grid.stations[s]?.[whom] === true && grid.isBest[c * grid.slots + t] === 1,
  }
}

function dutyOf(grid: Grid, { rule, need, serves }: AskedDuty): Duty {
  const slots = Array.from({ length: grid.slots }, (_, t) => t)
  const needs = slots.map((t) => need(grid, t))
  const servers = slots.map((t) =>
    [...grid.stations.keys()].filter((s) =>
      grid.candidates.some((_, c) => (grid.worth[cellAt(grid, s, c, t)] ?? 0) > 0 && serves(grid, s, c, t)),
    ),
  )
  const canOf = (t: number): number => servers[t]?.length ?? 0
  return {
    weight: weightOf(rule),
    need: needs,
    isPriced: needs.map((count, t) => count > 0 && canOf(t) > count),
    short: needs.map((count, t) => Math.max(0, count - canOf(t))),
    serves: (s, c, t) => serves(grid, s, c, t),
    isBound: grid.stations.flatMap((_, s) =>
      needs.map((count, t) => count > 0 && canOf(t) <= count && servers[t]?.includes(s) === true),
    ),
  }
}

const pairs = (count: number): number => (count * (count - 1)) / 2

/** The same target at more than one telescope, and at more than it bears at once. */
function sameTargets(grid: Grid): Crowd {
  const pair = SAME_TARGET_LOOKS - SAME_KIND_LOOKS
  const atOnce: number[] = []
  for (const [c, target] of grid.targetOf.entries()) atOnce[target] = grid.candidates[c]?.atOnce ?? 1
  const tooMany = weightOf('rule.at-once')
  return {
    groupOf: grid.targetOf,
    groups: grid.targets,
    cost: (target, shown, alike) =>
      pair * pairs(shown) + tooMany * Math.max(0, shown - (atOnce[target] ?? 1)) + alike * Math.max(0, shown - 1),
    steepest: pair * (grid.stations.length - 1) + tooMany + weightOf('rule.row-alike'),
  }
}

const sameKinds = (grid: Grid): Crowd => ({
  groupOf: grid.kindOf,
  groups: AGAIN_BY_KIND.length,
  cost: (_kind, shown) => SAME_KIND_LOOKS * pairs(shown),
  steepest: SAME_KIND_LOOKS * (grid.stations.length - 1),
})
