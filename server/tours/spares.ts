import type { TourInput } from './build.ts'
import { cellAt, type Grid } from './grid.ts'
import { nightHours } from './hours.ts'
import { leaveBy, whyNotOf } from './offered.ts'
import { type Run, setupsOf, sumOver } from './runs.ts'
import type { Spare, Stop } from './tour.ts'

const PER_STATION = 4
const LEAST_WORTH = 0.2

/** Good targets that are on nobody's list, the worthiest first, at most four a station. */
export function sparesOf(input: TourInput, grid: Grid, stops: readonly Stop[]): readonly Spare[] {
  const shown = new Set(stops.map((stop) => stop.targetKey))
  return grid.stations.flatMap((_, station) => {
    const runs = grid.candidates.flatMap(({ targetKey, aim }, candidate) => {
      const run = shown.has(targetKey) || aim === 'close' ? null : longestOffer(grid, station, candidate)
      return run === null ? [] : [{ run, worth: sumOver(grid, run, grid.worth) / (run.to - run.from) }]
    })
    const good = runs.filter(({ worth }) => worth >= LEAST_WORTH).sort((a, b) => b.worth - a.worth)
    return good.slice(0, PER_STATION).map(({ run }) => spareOf(input, grid, run))
  })
}

/** The longest time in which a candidate is on offer at a station, or null. */
function longestOffer(grid: Grid, station: number, candidate: number): Run | null {
  let best: Run | null = null
  let from = 0
  for (let t = 0; t <= grid.slots; t++) {
    if (t < grid.slots && (grid.worth[cellAt(grid, station, candidate, t)] ?? 0) > 0) continue
    if (t - from > (best === null ? 0 : best.to - best.from)) best = { station, candidate, from, to: t }
    from = t + 1
  }
  return best
}

function spareOf({ night, sky }: TourInput, grid: Grid, run: Run): Spare {
  const [station, candidate] = [grid.stations[run.station], grid.candidates[run.candidate]]
  const [fromAt, toAt] = [grid.borders[run.from], grid.borders[run.to]]
  if (!station || !candidate || !fromAt || !toAt) throw new Error('A run off the grid')
  const gate = { sky, site: night.site, mount: station.telescope }
  const { closesAt } = nightHours(night)
  const leave = leaveBy(sky, whyNotOf(gate, candidate.targetIndex), fromAt, closesAt)
  const isFading = leave === null && toAt < closesAt
  return {
    targetKey: candidate.targetKey,
    stationId: station.id,
    setups: setupsOf(grid, run.station, run.candidate),
    fromAt,
    untilAt: leave?.at ?? toAt,
    cause: leave?.cause ?? { code: isFading ? 'faint' : 'closing' },
    chance: sumOver(grid, run, grid.meanChance) / (run.to - run.from),
  }
}
