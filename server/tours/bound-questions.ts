import { cellAt, type Grid, type Plan } from './grid.ts'

/** Whether a station shows a target in a quarter. */
export interface Question {
  readonly station: number
  readonly target: number
  readonly slot: number
}

export interface Answer extends Question {
  readonly isShown: boolean
}

/** In how many of the plans that were counted a station shows a target in a quarter, by (station * targets + target) * slots + slot. */
export interface Tally {
  readonly shown: Float64Array
  counted: number
}

export const beginTally = ({ stations, targets, slots }: Grid): Tally => ({
  shown: new Float64Array(stations.length * targets * slots),
  counted: 0,
})

export function countPlan({ targets, targetOf, slots }: Grid, tally: Tally, plan: Plan): void {
  tally.counted++
  for (const [at, c] of plan.entries()) {
    if (c < 0) continue
    const i = (Math.floor(at / slots) * targets + (targetOf[c] ?? 0)) * slots + (at % slots)
    tally.shown[i] = (tally.shown[i] ?? 0) + 1
  }
}

/**
 * What the plans agree least on, weighed by what is looked at: the target at a station with the most of it over the
 * evening, in the quarter with the most. Null where all are the same.
 */
export function questionOf(grid: Grid, tally: Tally): Question | null {
  const { targets, slots } = grid
  const doubts = doubtsOf(grid, tally)
  let [most, row] = [0, -1]
  for (let at = 0; at < doubts.length; at += slots) {
    const sum = doubts.subarray(at, at + slots).reduce((a, b) => a + b, 0)
    if (sum > most) [most, row] = [sum, at]
  }
  if (row < 0) return null
  const ofRow = doubts.subarray(row, row + slots)
  const station = Math.floor(row / slots / targets)
  return { station, target: (row / slots) % targets, slot: ofRow.indexOf(Math.max(...ofRow)) }
}

/** How far the plans are from agreeing, none at all or half of them, times what the line's looks are worth there. */
function doubtsOf(grid: Grid, { shown, counted }: Tally): Float64Array {
  const doubts = new Float64Array(shown.length)
  for (const s of grid.stations.keys()) {
    for (const [c, target] of grid.targetOf.entries()) {
      for (let t = 0; t < grid.slots; t++) {
        const i = (s * grid.targets + target) * grid.slots + t
        const cell = cellAt(grid, s, c, t)
        const apart = Math.min(shown[i] ?? 0, counted - (shown[i] ?? 0))
        doubts[i] = Math.max(doubts[i] ?? 0, apart * (grid.worth[cell] ?? 0) * (grid.capacity[cell] ?? 0))
      }
    }
  }
  return doubts
}

/** The grid with no more on offer than answers leave; what its rules ask stays what they ask of the whole night. */
export function leftOf(grid: Grid, answers: readonly Answer[]): Grid {
  const worth = grid.worth.slice()
  for (const { station, target, slot, isShown } of answers) {
    for (const [c, other] of grid.targetOf.entries()) {
      if ((other === target) !== isShown) worth[cellAt(grid, station, c, slot)] = 0
    }
  }
  return { ...grid, worth }
}
