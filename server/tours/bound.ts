import { bestChain } from './bound-chain.ts'
import { chargeOf, freeRuns } from './bound-charge.ts'
import { beginPrices, constantOf, type Prices } from './bound-prices.ts'
import { type Shares, sharesOf } from './bound-shares.ts'
import { stepPrices } from './bound-slopes.ts'
import type { Grid, Plan } from './grid.ts'

/** The proving of an upper limit: each round sharpens what the stations pay for what they share. */
export interface Bound {
  readonly shares: Shares
  readonly free: readonly Float64Array[]
  readonly prices: Prices
  /** What each station alone would show at the last prices: no programme yet, but a good place to look for one. */
  readonly plan: Plan
  /** The least limit found so far: no programme of the night scores more. */
  least: number
  /** Rounds since the limit last fell by a noticeable part, and how boldly prices move. */
  idle: number
  boldness: number
}

const IDLE_ROUNDS = 25
const COOLING = 0.7
const LEAST_BOLDNESS = 0.002
const NOTICEABLE = 1e-4

/** A proof that has not begun; one of a night with nothing to choose from is done. */
export function beginBound(grid: Grid): Bound {
  const shares = sharesOf(grid)
  return {
    shares,
    free: freeRuns(grid, shares),
    prices: beginPrices(grid, shares),
    plan: new Int16Array(grid.stations.length * grid.slots),
    least: isEmpty(grid) ? 0 : Number.POSITIVE_INFINITY,
    idle: 0,
    boldness: 1,
  }
}

/** True when there is nothing to choose from. */
export const isEmpty = (grid: Grid): boolean =>
  grid.candidates.length === 0 || grid.stations.length === 0 || grid.slots === 0

/**
 * Sharpens the limit by so many rounds (Lagrangian relaxation: with a price on everything that telescopes share, each is
 * alone and its best evening is found exactly; what the prices bring in is added). `found` is the score of the best
 * programme so far and sets the pace alone. False when more rounds would bring nothing.
 */
export function advanceBound(grid: Grid, bound: Bound, found: number, rounds: number): boolean {
  if (isEmpty(grid)) return false
  const noticeable = NOTICEABLE * Math.abs(found)
  for (let k = 0; k < rounds; k++) {
    if (bound.boldness < LEAST_BOLDNESS || isSettled(bound.least, found)) return false
    const limit = limitAtPrices(grid, bound)
    bound.idle = limit < bound.least - noticeable ? 0 : bound.idle + 1
    bound.least = Math.min(bound.least, limit)
    if (bound.idle > IDLE_ROUNDS) [bound.boldness, bound.idle] = [bound.boldness * COOLING, 0]
    stepPrices(grid, bound.shares, bound.prices, bound.plan, bound.boldness * Math.max(limit - found, noticeable))
  }
  return true
}

/** True when nothing noticeably better than what was found is left to find. */
export const isSettled = (limit: number, found: number): boolean => limit - found <= NOTICEABLE * Math.abs(found)

function limitAtPrices(grid: Grid, { shares, free, prices, plan }: Bound): number {
  let limit = constantOf(grid, shares, prices)
  for (const station of grid.stations.keys()) {
    const charged = chargeOf(grid, shares, prices, station, free[station] ?? new Float64Array())
    limit += bestChain(grid, station, charged, plan)
  }
  return limit
}
