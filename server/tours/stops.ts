import type { TourInput } from './build.ts'
import type { Grid, GridStation, Plan } from './grid.ts'
import { nightHours } from './hours.ts'
import { leaveBy, whyNotOf } from './offered.ts'
import { reasonsOf } from './reasons.ts'
import { type Run, runsOf, setupsOf, sumOver } from './runs.ts'
import type { Stop } from './tour.ts'
import { eachLook, roomFor } from './value.ts'

/** The stops of a plan, in the order of the row and of time. */
export function stopsOf(input: TourInput, grid: Grid, plan: Plan): readonly Stop[] {
  const looks = new Float64Array(grid.worth.length)
  eachLook(grid, plan, roomFor(grid), (cell, count) => {
    looks[cell] = count
  })
  return runsOf(grid, plan).flatMap((run) => {
    const station = grid.stations[run.station]
    return station === undefined ? [] : [stopOf(input, grid, station, run, looks)]
  })
}

function stopOf(input: TourInput, grid: Grid, station: GridStation, run: Run, looks: Float64Array): Stop {
  const candidate = grid.candidates[run.candidate]
  const [startsAt, endsAt] = [grid.borders[run.from], grid.borders[run.to]]
  if (candidate === undefined || startsAt === undefined || endsAt === undefined) throw new Error('A run off the grid')
  const { targetKey, aim, targetIndex } = candidate
  const gate = { sky: input.sky, site: input.night.site, mount: station.telescope }
  const leave = leaveBy(input.sky, whyNotOf(gate, targetIndex), startsAt, nightHours(input.night).closesAt)
  const quarters = run.to - run.from
  return {
    stationId: station.id,
    targetKey,
    aim,
    setups: setupsOf(grid, run.station, run.candidate),
    startsAt,
    endsAt,
    leaveBy: leave,
    chance: sumOver(grid, run, grid.meanChance) / quarters,
    view: sumOver(grid, run, grid.meanView) / quarters,
    looks: sumOver(grid, run, looks),
    reasons: reasonsOf(input, grid, run, leave),
  }
}
