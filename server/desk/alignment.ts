import type { ObjectStore } from '../../db/objects.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import { alignmentPairs, type BrightStar } from '../tours/alignment.ts'
import { FAINTEST_MAG, RIVAL_MAG } from '../tours/alignment-stars.ts'
import type { Night } from '../tours/night.ts'
import { placeOf } from '../tours/site.ts'
import type { Stop, Tour } from '../tours/tour.ts'
import type { Desk } from './desk.ts'

interface Needs {
  readonly objects: Pick<ObjectStore, 'stars' | 'find'>
  readonly sky: Desk['sky']
  readonly findNight: (id: string) => Night
  readonly programme: (nightId: string) => Tour | undefined
}

/** Pairs of stars to set the mounts up on; the bright stars are read once. */
export function alignmentDesk({ objects, sky, findNight, programme }: Needs): Desk['alignment'] {
  const stars = brightStars(objects)
  return (nightId, at) => {
    const night = findNight(nightId)
    const targets = targetsOf(programme(nightId)?.stops ?? [], night, sky)
    return alignmentPairs({ stars, night, at, targets })
  }
}

/** Every star that may be chosen, and every one that might be taken for such a star; of a pair only the brighter. */
function brightStars(objects: Needs['objects']): readonly BrightStar[] {
  const stars = new Map<string, BrightStar>()
  for (const { hip, magnitude, bv: _bv, ...place } of objects.stars(FAINTEST_MAG + RIVAL_MAG)) {
    const found = objects.find(`hip${hip}`)
    if (!found || stars.has(found.canonicalKey)) continue
    stars.set(found.canonicalKey, { key: found.canonicalKey, name: found.object.name, magnitude, place })
  }
  return [...stars.values()]
}

/** Where each target of the programme stands in the middle of the first stop that shows it. */
function targetsOf(stops: readonly Stop[], { site }: Night, sky: Desk['sky']): readonly Horizontal[] {
  const firsts = new Map(stops.toReversed().map((stop) => [stop.targetKey, stop]))
  return [...firsts.values()].flatMap(({ targetKey, startsAt, endsAt }) => {
    const middleAt = new Date((startsAt.getTime() + endsAt.getTime()) / 2)
    return sky
      .places(middleAt, placeOf(site), [targetKey])
      .map(({ apparentAltitudeDeg: altitudeDeg, azimuthDeg }) => ({ altitudeDeg, azimuthDeg }))
  })
}
