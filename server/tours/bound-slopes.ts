import { lookPricesOf } from './bound-charge.ts'
import { CROWD_TABLES, mapTables, mostAtPrice, type Prices, type PriceTables, TABLES } from './bound-prices.ts'
import { looksOfRun } from './bound-runs.ts'
import type { Shares } from './bound-shares.ts'
import type { Grid, Plan } from './grid.ts'
import { begins, mostMoves } from './rules.ts'
import { runsOf } from './runs.ts'

/** How much of the step before goes into the next, so that prices do not swing to and fro. */
const DRIFT = 0.5

/** Moves every price by how far the plans of the stations, each alone, use more or less than there is; `pace` is how far the limit should fall. */
export function stepPrices(grid: Grid, shares: Shares, prices: Prices, plan: Plan, pace: number): void {
  const { now, highest, scale, drift } = prices
  const slopes = slopesOf(grid, shares, prices, plan)
  let steepness = 0
  for (const name of TABLES) {
    for (const [i, slope] of slopes[name].entries()) {
      const isStuck = slope > 0 ? (now[name][i] ?? 0) <= 0 : (now[name][i] ?? 0) >= (highest[name][i] ?? 0)
      drift[name][i] = DRIFT * (drift[name][i] ?? 0) + (1 - DRIFT) * (isStuck ? 0 : slope)
      steepness += ((scale[name][i] ?? 0) * (drift[name][i] ?? 0)) ** 2
    }
  }
  if (steepness === 0) return
  for (const name of TABLES) {
    for (const [i, price] of now[name].entries()) {
      const step = (pace * (scale[name][i] ?? 0) ** 2 * (drift[name][i] ?? 0)) / steepness
      now[name][i] = Math.min(highest[name][i] ?? 0, Math.max(0, price - step))
    }
  }
}

/** How the limit changes with each price: what there is, less what the plan uses. */
function slopesOf(grid: Grid, shares: Shares, prices: Prices, plan: Plan): PriceTables {
  const slopes = mapTables(prices.now, (table) => new Float64Array(table.length))
  offer(grid, shares, prices, slopes)
  useCells(grid, shares, slopes, plan)
  useRuns(grid, shares, prices, slopes, plan)
  return slopes
}

const add = (table: Float64Array, i: number, by: number): void => {
  table[i] = (table[i] ?? 0) + by
}

function offer(grid: Grid, shares: Shares, { now }: Prices, slopes: PriceTables): void {
  const { slots } = grid
  for (const i of slopes.stock.keys()) add(slopes.stock, i, shares.eyes[i % slots] ?? 0)
  for (const [d, { need, isPriced }] of shares.duties.entries()) {
    for (const [t, count] of need.entries()) if (isPriced[t]) add(slopes.duty, d * slots + t, -count)
  }
  for (const [i, name] of CROWD_TABLES.entries()) {
    for (const [at, price] of now[name].entries()) {
      const alike = now.alike[at % slots] ?? 0
      const cost = (count: number): number => shares.crowds[i]?.cost(Math.floor(at / slots), count, alike) ?? 0
      const count = mostAtPrice(price, grid.stations.length, cost)[1]
      add(slopes[name], at, count)
      if (name === 'target' && shares.alikeSpare > 0) add(slopes.alike, at % slots, -Math.max(0, count - 1))
    }
  }
  for (const t of slopes.alike.keys()) add(slopes.alike, t, shares.alikeSpare)
  for (const [j, kind] of shares.kindOfTarget.entries()) {
    if ((now.entry[j] ?? 0) <= (now.again[kind] ?? 0)) continue
    add(slopes.entry, j, 1)
    add(slopes.again, kind, -1)
  }
  for (const kind of slopes.again.keys()) add(slopes.again, kind, 1)
  for (const i of slopes.near.keys()) if (shares.isBeside[Math.floor(i / slots)]) add(slopes.near, i, 1)
  for (const s of slopes.moves.keys()) add(slopes.moves, s, mostMoves(grid))
}

function useCells(grid: Grid, shares: Shares, slopes: PriceTables, plan: Plan): void {
  const { slots } = grid
  for (const [at, c] of plan.entries()) {
    const [s, t] = [Math.floor(at / slots), at % slots]
    if (c < 0) continue
    add(slopes.target, (grid.targetOf[c] ?? 0) * slots + t, -1)
    add(slopes.kind, (grid.kindOf[c] ?? 0) * slots + t, -1)
    for (const [d, duty] of shares.duties.entries()) {
      if (duty.isPriced[t] && duty.serves(s, c, t)) add(slopes.duty, d * slots + t, 1)
    }
    if (!begins(grid, plan, s, t)) continue
    add(slopes.moves, s, -1)
    if (shares.isBeside[s]) add(slopes.near, s * slots + t, -1)
    if (shares.isBeside[s + 1]) add(slopes.near, (s + 1) * slots + t, -1)
  }
}

function useRuns(grid: Grid, shares: Shares, { now }: Prices, slopes: PriceTables, plan: Plan): void {
  const { slots } = grid
  let [lastStation, lastTarget] = [-1, -1]
  for (const { station, candidate, from, to } of runsOf(grid, plan)) {
    const target = grid.targetOf[candidate] ?? 0
    if (station !== lastStation || target !== lastTarget) add(slopes.entry, target, -1)
    ;[lastStation, lastTarget] = [station, target]
    const lookPrices = lookPricesOf(grid, now.stock.subarray(target * slots, (target + 1) * slots))
    for (const { slot, amount } of looksOfRun(grid, { station, candidate, lookPrices }, shares.eyes, from, to)) {
      for (let t = slot; t < slots; t++) add(slopes.stock, target * slots + t, -amount)
    }
  }
}
