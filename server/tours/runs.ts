import { cellAt, type Grid, type Plan, shownAt } from './grid.ts'
import type { Setup } from './tour.ts'

/** One thing at one station over quarters in a row, `to` not included. */
export interface Run {
  readonly station: number
  readonly candidate: number
  readonly from: number
  readonly to: number
}

/** The runs of a plan by station and time; empty quarters are left out. */
export function runsOf(grid: Grid, plan: Plan): readonly Run[] {
  const runs: Run[] = []
  for (const station of grid.stations.keys()) {
    let from = 0
    for (let t = 1; t <= grid.slots; t++) {
      const candidate = shownAt(grid, plan, station, from)
      if (t < grid.slots && shownAt(grid, plan, station, t) === candidate) continue
      if (candidate >= 0) runs.push({ station, candidate, from, to: t })
      from = t
    }
  }
  return runs
}

/** Tubes and eyepieces of a candidate at a station: the one that shows most, then a second look where there is one; [] when it is never up there. */
export function setupsOf(grid: Grid, station: number, candidate: number): readonly Setup[] {
  const at = station * grid.candidates.length + candidate
  return [grid.setups[at] ?? null, grid.besides[at] ?? null].filter((setup) => setup !== null)
}

/** Sum of one of the grid's tables over the quarters of a run. */
export function sumOver(grid: Grid, { station, candidate, from, to }: Run, table: Float64Array): number {
  let sum = 0
  for (let t = from; t < to; t++) sum += table[cellAt(grid, station, candidate, t)] ?? 0
  return sum
}
