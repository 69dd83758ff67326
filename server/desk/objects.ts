import type { ObjectStore } from '../../db/objects.ts'
import type { PlaceStore } from '../../db/places.ts'
import type { StarStore } from '../../db/stars.ts'
import { Fault, notFound } from '../errors.ts'
import type { StarPlace } from '../sky/star.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Desk } from './desk.ts'
import type { Fixed } from './sky.ts'

/** Looking things up in the catalogue. */
export const objectDesk = (objects: ObjectStore): Desk['objects'] => ({
  search: objects.search,
  find(key) {
    const found = objects.find(key)
    if (!found) throw notFound('object')
    return found
  },
  show: objects.show,
  story: objects.story,
})

/** Looking up towns in the gazetteer. */
export const placeDesk = (places: PlaceStore): Desk['places'] => ({ search: places.search })

/** A catalogue object as the sky floor takes it; a conflict Fault for one without a fixed place. */
export function fixedOf(objects: Pick<Desk['objects'], 'find'>, stars: StarStore, key: string): Fixed {
  const { canonicalKey, object } = objects.find(key)
  const star = 'body' in object ? placeOf(object) : stars.find(canonicalKey)
  if (!star) throw new Fault('conflict', 'fault.no-fixed-place', { name: object.name })
  return { key, star, magnitude: object.magnitude }
}

function placeOf({ raDeg, decDeg, pmRaMasYr, pmDecMasYr, parallaxMas }: ShowObject): StarPlace | undefined {
  return raDeg === null || decDeg === null ? undefined : { raDeg, decDeg, pmRaMasYr, pmDecMasYr, parallaxMas }
}
