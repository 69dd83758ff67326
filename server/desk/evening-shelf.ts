import { digestOf } from '../tours/digest.ts'
import { type EveningSky, eveningKey, eveningSky } from '../tours/evening.ts'
import { chanceKey, type EveningChance, eveningChance } from '../tours/evening-chance.ts'
import type { Night } from '../tours/night.ts'
import type { ShowObject } from '../tours/target.ts'
import type { WorkerStart } from './job-kinds.ts'
import { shelf } from './shelf.ts'

const KEPT = 8

export type EveningShelf = ReturnType<typeof eveningShelf>

/** The evenings reckoned so far, the eight last used of each kind. */
export function eveningShelf({ objects, catalogueDigest }: WorkerStart) {
  const skies = shelf<EveningSky>(KEPT)
  const chances = shelf<EveningChance>(KEPT)

  return {
    /** The list with the host's own objects behind it, and its evenings. */
    withOwn(own: readonly ShowObject[]) {
      const all = [...objects, ...own]
      const digest = own.length === 0 ? catalogueDigest : `${catalogueDigest}/${digestOf(JSON.stringify(own))}`
      return {
        objects: all,
        sky: (night: Night): EveningSky => skies.take(eveningKey(night, digest), () => eveningSky(night, all, digest)),
        chance: (sky: EveningSky, night: Night): EveningChance =>
          chances.take(chanceKey(sky, night), () => eveningChance(sky, night, all)),
      }
    },
  }
}
