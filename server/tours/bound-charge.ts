import type { StationPrices } from './bound-chain.ts'
import type { Prices } from './bound-prices.ts'
import { valueRuns } from './bound-runs.ts'
import type { Shares } from './bound-shares.ts'
import { cellAt, type Grid } from './grid.ts'
import { weightOf } from './rules.ts'
import { changeCost } from './value.ts'

/** What the runs of every station are worth while looks cost nothing, which most of them never do. */
export function freeRuns(grid: Grid, shares: Shares): readonly Float64Array[] {
  const lookPrices = new Float64Array(grid.slots)
  return grid.stations.map((_, station) => {
    const runs = new Float64Array(grid.candidates.length * grid.slots ** 2)
    for (const candidate of grid.candidates.keys())
      valueRuns(grid, { station, candidate, lookPrices }, shares.eyes, runs)
    return runs
  })
}

/** What one station earns and pays at these prices. */
export function chargeOf(
  grid: Grid,
  shares: Shares,
  prices: Prices,
  station: number,
  free: Float64Array,
): StationPrices {
  const { now } = prices
  const { slots } = grid
  const beside = (s: number, t: number): number => (shares.isBeside[s] ? (now.near[s * slots + t] ?? 0) : 0)
  const perSlot = (charge: (t: number) => number) => Float64Array.from({ length: slots }, (_, t) => charge(t))
  return {
    runs: runsAt(grid, shares, prices, station, free),
    reward: rewardsAt(grid, shares, prices, station),
    entry: Float64Array.from(grid.targetOf, (target) => now.entry[target] ?? 0),
    begin: perSlot(
      (t) =>
        (now.moves[station] ?? 0) +
        beside(station, t) +
        beside(station + 1, t) +
        (grid.isStill[t] ? weightOf('rule.class-still') : 0),
    ),
    idle: perSlot((t) => {
      const isOffered = (grid.ranked[station * slots + t]?.length ?? 0) > 0
      const missed = shares.duties.reduce((sum, duty) => sum + (duty.isBound[station * slots + t] ? duty.weight : 0), 0)
      return missed + (isOffered ? weightOf('rule.idle') : 0) + changeCost(grid.kept[station * slots + t] ?? -1, -1)
    }),
  }
}

function runsAt(grid: Grid, { eyes }: Shares, { now }: Prices, station: number, free: Float64Array): Float64Array {
  const runs = free.slice()
  for (const [candidate, target] of grid.targetOf.entries()) {
    const stock = now.stock.subarray(target * grid.slots, (target + 1) * grid.slots)
    if (stock.some((price) => price > 0))
      valueRuns(grid, { station, candidate, lookPrices: lookPricesOf(grid, stock) }, eyes, runs)
  }
  return runs
}

/** What a look at a target costs in each quarter: it is missed in that quarter and every later one. */
export function lookPricesOf(grid: Grid, stock: Float64Array): Float64Array {
  const prices = new Float64Array(stock.length)
  let sum = 0
  for (let t = stock.length - 1; t >= 0; t--) {
    sum += stock[t] ?? 0
    prices[t] = sum / (grid.fade[t] ?? 1)
  }
  return prices
}

function rewardsAt(grid: Grid, { duties }: Shares, { now }: Prices, station: number): Float64Array {
  const { slots } = grid
  const rewards = new Float64Array(grid.candidates.length * slots)
  for (let c = 0; c < grid.candidates.length; c++) {
    const [target, kind] = [(grid.targetOf[c] ?? 0) * slots, (grid.kindOf[c] ?? 0) * slots]
    for (let t = 0; t < slots; t++) {
      if ((grid.worth[cellAt(grid, station, c, t)] ?? 0) <= 0) continue
      let reward =
        -changeCost(grid.kept[station * slots + t] ?? -1, c) - (now.target[target + t] ?? 0) - (now.kind[kind + t] ?? 0)
      for (const [d, duty] of duties.entries()) {
        const isServed = duty.serves(station, c, t)
        if (isServed && duty.isPriced[t]) reward += now.duty[d * slots + t] ?? 0
        if (!isServed && duty.isBound[station * slots + t]) reward -= duty.weight
      }
      rewards[c * slots + t] = reward
    }
  }
  return rewards
}
