import type { ObjectStore } from '../../db/objects.ts'
import type { BrightStar } from '../tours/alignment-lights.ts'
import { RIVAL_MAG } from '../tours/alignment-rivals.ts'
import { FAINTEST_MAG } from '../tours/alignment-stars.ts'
import type { Night } from '../tours/night.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Tour } from '../tours/tour.ts'
import type { Desk } from './desk.ts'
import type { Jobs } from './jobs.ts'

interface Needs {
  readonly findNight: (id: string) => Night
  readonly programme: (nightId: string) => Tour | undefined
  readonly jobs: Jobs
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
}

/** Pairs of stars to set the mounts up on. */
export const alignmentDesk =
  ({ findNight, programme, jobs, own }: Needs): Desk['alignment'] =>
  async (nightId, at) => {
    const night = findNight(nightId)
    const stops = programme(nightId)?.stops ?? []
    return jobs.run<'alignment'>({ kind: 'alignment', night, own: own(), stops, at })
  }

/** Every star that may be chosen, and every one that might be taken for such a star; of a pair only the brighter. */
export function brightStars(objects: Pick<ObjectStore, 'stars' | 'find'>): readonly BrightStar[] {
  const stars = new Map<string, BrightStar>()
  for (const { hip, magnitude, bv, ...place } of objects.stars(FAINTEST_MAG + RIVAL_MAG)) {
    const found = objects.find(`hip${hip}`)
    if (!found || stars.has(found.canonicalKey)) continue
    stars.set(found.canonicalKey, { key: found.canonicalKey, name: found.object.name, magnitude, bv, place })
  }
  return [...stars.values()]
}
