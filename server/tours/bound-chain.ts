import { runAt } from './bound-runs.ts'
import { cellAt, type Grid, type Plan } from './grid.ts'
import { botherLooks, SHORT_STOP_LOOKS } from './value.ts'

/** What one station earns and pays when everything it shares with the row has a price. */
export interface StationPrices {
  /** What the looks of a run are worth, by `runAt`. */
  readonly runs: Float64Array
  /** By candidate * slots + slot: what else showing it earns in the quarter. */
  readonly reward: Float64Array
  /** By candidate: what turning to its target costs. */
  readonly entry: Float64Array
  /** By slot: what beginning anything costs, and what standing idle does. */
  readonly begin: Float64Array
  readonly idle: Float64Array
}

/**
 * Best so far at the start of each quarter by what was shown last (column `candidates.length`: nothing yet), with it
 * still shown just before or idle, and how it came about.
 */
interface Chains {
  readonly width: number
  readonly shown: Float64Array
  readonly idle: Float64Array
  readonly shownFrom: Int16Array
  readonly wasIdle: Uint8Array
  /** By first quarter and candidate of a run: what was shown before it. */
  readonly before: Int16Array
}

const NEVER = Number.NEGATIVE_INFINITY

/**
 * The most that one station can earn in an evening, exactly, and what it shows then (written into `plan`, -1 for nothing):
 * a dynamic programme over runs, with the moves between them and the stops too short to be worth it.
 */
export function bestChain(grid: Grid, station: number, prices: StationPrices, plan: Plan): number {
  const chains = chainsOf(grid)
  const sums = sumsOf(grid, prices.reward)
  for (let t = 0; t < grid.slots; t++) {
    rest(chains, prices, t)
    for (let c = 0; c < grid.candidates.length; c++) {
      if (prices.runs[runAt(grid.slots, c, t, 1)] !== NEVER) show(grid, station, prices, chains, sums, c, t)
    }
  }
  return writeBack(grid, station, chains, plan)
}

function chainsOf({ slots, candidates }: Grid): Chains {
  const width = candidates.length + 1
  const size = (slots + 1) * width
  const idle = new Float64Array(size).fill(NEVER)
  idle[width - 1] = 0
  return {
    width,
    shown: new Float64Array(size).fill(NEVER),
    idle,
    shownFrom: new Int16Array(size),
    wasIdle: new Uint8Array(size),
    before: new Int16Array(size),
  }
}

/** Rewards of a candidate from the opening up to each quarter. */
function sumsOf({ slots, candidates }: Grid, reward: Float64Array): Float64Array {
  const sums = new Float64Array(candidates.length * (slots + 1))
  for (let c = 0; c < candidates.length; c++) {
    for (let t = 0; t < slots; t++)
      sums[c * (slots + 1) + t + 1] = (sums[c * (slots + 1) + t] ?? 0) + (reward[c * slots + t] ?? 0)
  }
  return sums
}

/** Nothing is shown in a quarter. */
function rest({ width, shown, idle, wasIdle }: Chains, prices: StationPrices, t: number): void {
  for (let d = 0; d < width; d++) {
    const at = t * width + d
    const isIdle = (idle[at] ?? NEVER) >= (shown[at] ?? NEVER)
    idle[at + width] = Math.max(idle[at] ?? NEVER, shown[at] ?? NEVER) - (prices.idle[t] ?? 0)
    wasIdle[at + width] = isIdle ? 1 : 0
  }
}

/** Every run of a candidate that begins in a quarter. */
function show(
  grid: Grid,
  station: number,
  prices: StationPrices,
  chains: Chains,
  sums: Float64Array,
  c: number,
  t: number,
): void {
  const { slots } = grid
  const begun = begin(grid, station, prices, chains, c, t)
  for (let length = 1; t + length <= slots; length++) {
    const run = prices.runs[runAt(slots, c, t, length)] ?? NEVER
    if (run === NEVER) return
    const rewards = (sums[c * (slots + 1) + t + length] ?? 0) - (sums[c * (slots + 1) + t] ?? 0)
    const value = begun + run + rewards - (length === 1 ? SHORT_STOP_LOOKS : 0)
    const at = (t + length) * chains.width + c
    if (value > (chains.shown[at] ?? NEVER)) [chains.shown[at], chains.shownFrom[at]] = [value, t]
  }
}

/** The best of all that can come before a run of a candidate that begins in a quarter. */
function begin(grid: Grid, station: number, prices: StationPrices, chains: Chains, c: number, t: number): number {
  const count = grid.candidates.length
  const row = t * chains.width
  const worth = grid.worth[cellAt(grid, station, c, t)] ?? 0
  const table = station * count * count + c
  const entry = prices.entry[c] ?? 0
  const bother = botherLooks(grid)
  // The same again after a pause costs no move.
  let [most, before] = [chains.idle[row + c] ?? NEVER, c]
  for (let d = 0; d < chains.width; d++) {
    const soFar = Math.max(chains.shown[row + d] ?? NEVER, chains.idle[row + d] ?? NEVER)
    if (d === c || soFar <= most) continue
    const isFirst = d === count
    const move = isFirst ? 0 : bother + (grid.moving[table + d * count] ?? 0) * worth
    const isSame = !isFirst && grid.targetOf[d] === grid.targetOf[c]
    const value = soFar - move - (isSame ? 0 : entry)
    if (value > most) [most, before] = [value, d]
  }
  chains.before[row + c] = before
  return most - (t === 0 ? 0 : (prices.begin[t] ?? 0))
}

function writeBack({ slots }: Grid, station: number, chains: Chains, plan: Plan): number {
  const { width, shown, idle, shownFrom, wasIdle, before } = chains
  let [most, last, isIdle] = [NEVER, width - 1, true]
  for (let d = 0; d < width; d++) {
    const at = slots * width + d
    if ((shown[at] ?? NEVER) > most) [most, last, isIdle] = [shown[at] ?? NEVER, d, false]
    if ((idle[at] ?? NEVER) > most) [most, last, isIdle] = [idle[at] ?? NEVER, d, true]
  }
  plan.fill(-1, station * slots, (station + 1) * slots)
  for (let t = slots; t > 0; ) {
    const at = t * width + last
    if (isIdle) {
      isIdle = wasIdle[at] === 1
      t -= 1
      continue
    }
    const from = shownFrom[at] ?? 0
    plan.fill(last, station * slots + from, station * slots + t)
    const earlier = before[from * width + last] ?? width - 1
    isIdle = earlier === last || (idle[from * width + earlier] ?? NEVER) >= (shown[from * width + earlier] ?? NEVER)
    t = from
    last = earlier
  }
  return most
}
