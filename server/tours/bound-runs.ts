import { cellAt, type Grid } from './grid.ts'

/** What the people on the field can give one target up to the end of each quarter, in looks as if given at the opening. */
export function eyesOf({ people, fade }: Pick<Grid, 'people' | 'fade'>): Float64Array {
  let most = 0
  return people.map((count, t) => {
    most = Math.max(most, count / (fade[t] ?? 1))
    return most
  })
}

/** Where a run stands in a table by candidate, first quarter and number of quarters. */
export const runAt = (slots: number, candidate: number, from: number, length: number): number =>
  (candidate * slots + from) * slots + length - 1

/** Looks of one quarter, as if given at the opening, and what each is worth. */
interface Taken {
  readonly slot: number
  readonly value: number
  amount: number
}

/** One candidate at one station, with what a look at it costs by quarter. */
interface Run {
  readonly station: number
  readonly candidate: number
  readonly lookPrices: Float64Array
}

const TINY = 1e-12

/**
 * Takes all looks of one more quarter that are worth their price and gives the cheapest back until no more are taken than
 * there are new eyes; since the limit is one sum that grows from quarter to quarter, that is the best use exactly.
 */
function takeQuarter(
  grid: Grid,
  { station, candidate, lookPrices }: Run,
  eyes: Float64Array,
  slot: number,
  taken: Taken[],
): void {
  const cell = cellAt(grid, station, candidate, slot)
  const fade = grid.fade[slot] ?? 1
  const value = ((grid.worth[cell] ?? 0) - (lookPrices[slot] ?? 0)) * fade
  if (value > 0) {
    taken.push({ slot, value, amount: (grid.capacity[cell] ?? 0) / fade })
    taken.sort((a, b) => a.value - b.value)
  }
  let over = taken.reduce((sum, { amount }) => sum + amount, 0) - (eyes[slot] ?? 0)
  for (let cheapest = taken[0]; over > TINY && cheapest !== undefined; cheapest = taken[0]) {
    const back = Math.min(over, cheapest.amount)
    cheapest.amount -= back
    over -= back
    if (cheapest.amount <= TINY) taken.shift()
  }
}

/** Fills a table by `runAt` with the most that the looks of each run are worth; -Infinity where it is not on offer for the whole of it. */
export function valueRuns(grid: Grid, run: Run, eyes: Float64Array, into: Float64Array): void {
  for (let from = 0; from < grid.slots; from++) {
    const taken: Taken[] = []
    let isOpen = true
    for (let t = from; t < grid.slots; t++) {
      isOpen &&= (grid.worth[cellAt(grid, run.station, run.candidate, t)] ?? 0) > 0
      if (isOpen) takeQuarter(grid, run, eyes, t, taken)
      const value = isOpen ? taken.reduce((sum, each) => sum + each.value * each.amount, 0) : Number.NEGATIVE_INFINITY
      into[runAt(grid.slots, run.candidate, from, t - from + 1)] = value
    }
  }
}

/** The looks, quarter by quarter and as if given at the opening, of the best use of a run from one quarter up to another. */
export function looksOfRun(
  grid: Grid,
  run: Run,
  eyes: Float64Array,
  from: number,
  to: number,
): readonly Readonly<Taken>[] {
  const taken: Taken[] = []
  for (let t = from; t < to; t++) takeQuarter(grid, run, eyes, t, taken)
  return taken
}
