import { readOutreach } from '../../db/catalogue/outreach.ts'
import { advance, type BuiltTour, finishTour, type TourInput, type TourWork, workOn } from '../../server/tours/build.ts'
import { eveningSky } from '../../server/tours/evening.ts'
import { eveningChance } from '../../server/tours/evening-chance.ts'
import type { Grid } from '../../server/tours/grid.ts'
import { openGridOf } from '../../server/tours/grid-make.ts'
import type { Night } from '../../server/tours/night.ts'
import { isForTelescopes, type ShowObject } from '../../server/tours/target.ts'

/** Everything on the list, read once for all tests. */
export const OUTREACH = readOutreach()
/** What of it may be shown at a telescope. */
export const FOR_TELESCOPES = OUTREACH.filter(isForTelescopes)

/** A night with its sky and chances, as the worker has them. */
export interface Evening {
  readonly night: Night
  readonly objects: readonly ShowObject[]
  readonly sky: ReturnType<typeof eveningSky>
  readonly chance: ReturnType<typeof eveningChance>
}

type Search = Pick<TourInput, 'seed' | 'wishes' | 'again'>

const reckoned = new WeakMap<Night, WeakMap<readonly ShowObject[], Evening>>()
const grids = new WeakMap<Evening, Map<string, Grid>>()

/** The evening of a night over a list; the same night and list give the evening that was reckoned for them before. */
export function eveningOf(night: Night, objects: readonly ShowObject[] = FOR_TELESCOPES): Evening {
  const byList = reckoned.get(night) ?? new WeakMap<readonly ShowObject[], Evening>()
  const evening = byList.get(objects) ?? reckon(night, objects)
  reckoned.set(night, byList.set(objects, evening))
  return evening
}

function reckon(night: Night, objects: readonly ShowObject[]): Evening {
  const sky = eveningSky(night, objects)
  return { night, objects, sky, chance: eveningChance(sky, night, objects) }
}

/** All that an evening offers, among it what must be kept and what wishes name; the same evening and names give the grid of before. */
export function openGridOn(evening: Evening, keepKeys: readonly string[] = [], wishes: TourInput['wishes'] = []): Grid {
  const known = grids.get(evening) ?? new Map<string, Grid>()
  const named = wishes.map(({ targetKey, stationId, things }) => [
    targetKey,
    things.length > 0 ? stationId : '',
    things,
  ])
  const what = JSON.stringify([keepKeys, named])
  const grid = known.get(what) ?? openGridOf({ ...evening, keepKeys, wishes })
  grids.set(evening, known.set(what, grid))
  return grid
}

/** What `beginTour` answers, on a grid that may have been reckoned before. */
export function beginOn(evening: Evening, search: Search): TourWork {
  const keepKeys = (search.again?.stops ?? []).map(({ targetKey }) => targetKey)
  return workOn({ ...evening, ...search }, openGridOn(evening, keepKeys, search.wishes))
}

/** The programme that so many steps find. */
export function builtOn(evening: Evening, steps: number, search: Search = { seed: 1 }): BuiltTour {
  const work = beginOn(evening, search)
  advance(work, steps)
  return finishTour(work)
}
