import { AGAIN_BY_KIND, WANDERING_LOOKS } from './alike.ts'
import type { Crowd, Shares } from './bound-shares.ts'
import type { Grid } from './grid.ts'
import { mostMoves, weightOf } from './rules.ts'

/**
 * A price on everything that stations share: new eyes (target * slots + slot), beginning a target, a further thing of a
 * kind, each duty (duty * slots + slot), crowds of one target and of one kind (group * slots + slot), showing what is on
 * elsewhere (slot), beginning beside a neighbour (station * slots + slot), and beginning at all (station).
 */
export interface PriceTables {
  readonly stock: Float64Array
  readonly entry: Float64Array
  readonly again: Float64Array
  readonly duty: Float64Array
  readonly target: Float64Array
  readonly kind: Float64Array
  readonly alike: Float64Array
  readonly near: Float64Array
  readonly moves: Float64Array
}
export const TABLES = ['stock', 'entry', 'again', 'duty', 'target', 'kind', 'alike', 'near', 'moves'] as const
export const CROWD_TABLES = ['target', 'kind'] as const

/** The prices, how high each may rise so that the limit stays one, how far a usual step goes, and the step before. */
export interface Prices {
  readonly now: PriceTables
  readonly highest: PriceTables
  readonly scale: PriceTables
  readonly drift: PriceTables
}

const USUAL_STEP = {
  stock: 0.1,
  entry: 2,
  again: 2,
  duty: 3,
  target: 3,
  kind: 0.3,
  alike: 3,
  near: 2,
  moves: 2,
} as const

export function beginPrices(grid: Grid, shares: Shares): Prices {
  const { slots, targets } = grid
  const stations = grid.stations.length
  const [sameTarget, sameKind] = shares.crowds
  const highest: PriceTables = {
    stock: new Float64Array(targets * slots).fill(Number.POSITIVE_INFINITY),
    entry: new Float64Array(targets).fill(WANDERING_LOOKS),
    again: Float64Array.from({ length: shares.kinds }, (_, kind) =>
      shares.kindOfTarget.includes(kind) ? (AGAIN_BY_KIND[kind] ?? 0) : 0,
    ),
    duty: Float64Array.from(
      { length: shares.duties.length * slots },
      (_, i) => shares.duties[Math.floor(i / slots)]?.weight ?? 0,
    ),
    target: new Float64Array(targets * slots).fill(sameTarget?.steepest ?? 0),
    kind: new Float64Array(shares.kinds * slots).fill(sameKind?.steepest ?? 0),
    alike: new Float64Array(slots).fill(weightOf('rule.row-alike')),
    near: Float64Array.from({ length: stations * slots }, (_, i) =>
      i % slots === grid.opening ? 0 : weightOf('rule.neighbours-together'),
    ),
    moves: new Float64Array(stations).fill(weightOf('rule.moves')),
  }
  const scale = mapTables(highest, (table, name) => table.map(() => USUAL_STEP[name]))
  // A look late in the evening is counted as if given at the opening, when it would have faded most.
  for (let i = 0; i < scale.stock.length; i++) scale.stock[i] = USUAL_STEP.stock * (grid.fade[i % slots] ?? 1)
  const zero = (table: Float64Array): Float64Array => new Float64Array(table.length)
  const now = mapTables(highest, zero)
  // Where none may be alike, each that is costs all that the rule does, whatever the others show.
  if (shares.alikeSpare === 0) now.alike.set(highest.alike)
  return { now, highest, scale, drift: mapTables(highest, zero) }
}

export function mapTables(
  tables: PriceTables,
  change: (table: Float64Array, name: (typeof TABLES)[number]) => Float64Array,
): PriceTables {
  return {
    stock: change(tables.stock, 'stock'),
    entry: change(tables.entry, 'entry'),
    again: change(tables.again, 'again'),
    duty: change(tables.duty, 'duty'),
    target: change(tables.target, 'target'),
    kind: change(tables.kind, 'kind'),
    alike: change(tables.alike, 'alike'),
    near: change(tables.near, 'near'),
    moves: change(tables.moves, 'moves'),
  }
}

export function copyPrices(from: PriceTables, into: PriceTables): void {
  for (const name of TABLES) into[name].set(from[name])
}

/** The most of price x count - cost over the counts that a row can have, and the count that gives it. */
export function mostAtPrice(
  price: number,
  stations: number,
  cost: (count: number) => number,
): readonly [number, number] {
  let [most, at] = [0, 0]
  for (let count = 1; count <= stations; count++) {
    const value = price * count - cost(count)
    if (value > most) [most, at] = [value, count]
  }
  return [most, at]
}

/** What the prices bring in whatever is shown. */
export function constantOf(grid: Grid, shares: Shares, { now }: Prices): number {
  const { slots } = grid
  let sum = 0
  for (const [i, price] of now.stock.entries()) sum += price * (shares.eyes[i % slots] ?? 0)
  for (const [d, duty] of shares.duties.entries()) {
    for (const [t, need] of duty.need.entries()) {
      sum -= duty.isPriced[t] ? (now.duty[d * slots + t] ?? 0) * need : duty.weight * (duty.short[t] ?? 0)
    }
  }
  for (const [i, name] of CROWD_TABLES.entries()) sum += crowdConstant(grid, shares.crowds[i], now[name], now.alike)
  for (const price of now.alike) sum += price * shares.alikeSpare
  for (const [j, kind] of shares.kindOfTarget.entries())
    sum += Math.max(0, (now.entry[j] ?? 0) - (now.again[kind] ?? 0))
  for (const price of now.again) sum += price
  for (const [i, price] of now.near.entries()) if (shares.isBeside[Math.floor(i / slots)]) sum += price
  for (const price of now.moves) sum += price * mostMoves(grid)
  return sum
}

function crowdConstant(grid: Grid, crowd: Crowd | undefined, prices: Float64Array, alike: Float64Array): number {
  if (crowd === undefined) return 0
  return prices.reduce((sum, price, i) => {
    const group = Math.floor(i / grid.slots)
    const extra = alike[i % grid.slots] ?? 0
    return sum + mostAtPrice(price, grid.stations.length, (count) => crowd.cost(group, count, extra))[0]
  }, 0)
}
