import { readOutreach } from '../../db/catalogue/outreach.ts'
import { eveningSky } from '../../server/tours/evening.ts'
import { eveningChance } from '../../server/tours/evening-chance.ts'
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

const reckoned = new WeakMap<Night, WeakMap<readonly ShowObject[], Evening>>()

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
