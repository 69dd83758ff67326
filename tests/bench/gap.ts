import { readOutreach } from '../../db/catalogue/outreach.ts'
import { advanceParts, beginParts } from '../../server/tours/bound-parts.ts'
import { eveningSky } from '../../server/tours/evening.ts'
import { eveningChance } from '../../server/tours/evening-chance.ts'
import { gridOf } from '../../server/tours/grid-make.ts'
import { advanceSearch, beginSearch } from '../../server/tours/solver.ts'
import { isForTelescopes } from '../../server/tours/target.ts'
import { breachWeight } from '../../server/tours/value.ts'
import { generatedNight } from '../support/generated-nights.ts'

/** Generated nights with one, two, four and eight telescopes. */
const NIGHTS = [8, 1, 19, 15]
const SEARCH_SEC = [0.1, 0.25, 0.5, 1, 2]
const PROOF_SEC = [0.5, 1, 2, 5, 10, 20]
const SLICE_STEPS = 2000

/** Prints how the gap between programme and limit closes with time, for four rows. */
export function benchGap(): void {
  const objects = readOutreach().filter(isForTelescopes)
  console.log('Gap between programme and limit, in per cent of the value')
  for (const number of NIGHTS) {
    const night = generatedNight(number)
    const sky = eveningSky(night, objects)
    const grid = gridOf({ night, objects, sky, chance: eveningChance(sky, night, objects) })
    const search = beginSearch(grid, 1)
    const found = timed(
      SEARCH_SEC,
      () => advanceSearch(grid, search, SLICE_STEPS),
      () => search.bestScore,
    )
    const proof = beginParts(grid)
    const limits = timed(
      PROOF_SEC,
      () => advanceParts(grid, proof, search.bestScore, 1),
      () => proof.least,
    )
    const value = search.bestScore + breachWeight(grid, search.best)
    const per = (gap: number): string => ((100 * Math.max(0, gap)) / Math.max(1, value)).toFixed(2)
    console.log(`  ${grid.stations.length} telescopes, ${grid.slots} quarters, value ${value.toFixed(1)}`)
    console.log(`    search ${found.map(([sec, score]) => `${sec} s ${per(proof.least - score)}`).join(', ')}`)
    console.log(`    proof  ${limits.map(([sec, limit]) => `${sec} s ${per(limit - search.bestScore)}`).join(', ')}`)
  }
}

/** A figure at each of the times, while there is something left to do. */
function timed(
  seconds: readonly number[],
  advance: () => boolean,
  figure: () => number,
): readonly (readonly [number, number])[] {
  const beganMs = performance.now()
  let isGoing = true
  return seconds.map((second) => {
    while (isGoing && performance.now() - beganMs < second * 1000) isGoing = advance()
    return [second, figure()] as const
  })
}
