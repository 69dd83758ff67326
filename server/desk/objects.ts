import type { ObjectStore } from '../../db/objects.ts'
import type { OwnObjectStore } from '../../db/own-objects.ts'
import type { PlaceStore } from '../../db/places.ts'
import type { StarStore } from '../../db/stars.ts'
import type { WorldEventStore } from '../../db/world-events.ts'
import { Fault, notFound } from '../errors.ts'
import type { StarPlace } from '../sky/star.ts'
import type { ObjectHit, ShowObject } from '../tours/target.ts'
import type { Desk } from './desk.ts'
import type { Fixed } from './sky.ts'

interface Needs {
  readonly objects: ObjectStore
  readonly ownObjects: OwnObjectStore
  readonly worldEvents: WorldEventStore
  readonly story: Desk['objects']['story']
}

/** Looking things up in the catalogue and among the host's own. */
export function objectDesk({ objects, ownObjects, worldEvents, story }: Needs): Desk['objects'] {
  const known = knownIn({ objects, ownObjects })
  const find = (key: string): Found => {
    const found = known(key)
    if (!found) throw notFound('object')
    return found
  }

  return {
    search: (query, limit) => objects.search(query, limit, ownObjects.listed()),
    find,
    near: (key, limit) => objects.near(find(key).object, limit),
    show: (key) => objects.show(key) ?? ownObjects.find(key)?.object,
    story,
    worldEvents: worldEvents.all,
  }
}

type Found = { readonly canonicalKey: string; readonly object: ShowObject | ObjectHit }

/** Looks a key, alias or name up; a thing of the host's that was taken off the list is still known by its key. */
export const knownIn =
  ({ objects, ownObjects }: Pick<Needs, 'objects' | 'ownObjects'>) =>
  (key: string): Found | undefined => {
    const found = objects.find(key)
    if (found) return found
    const own = ownObjects.find(key) ?? ownObjects.called(key)
    return own && { canonicalKey: own.key, object: own.object }
  }

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
