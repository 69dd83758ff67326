import type { ObjectStore } from '../../db/objects.ts'
import type { OwnObjectStore } from '../../db/own-objects.ts'
import type { PlaceStore } from '../../db/places.ts'
import type { StarStore } from '../../db/stars.ts'
import type { WorldEventStore } from '../../db/world-events.ts'
import { Fault, notFound } from '../errors.ts'
import type { StarPlace } from '../sky/star.ts'
import type { WorldEvent } from '../tours/light-left.ts'
import type { Neighbour, ObjectHit, ShowObject, Story } from '../tours/target.ts'
import type { Desk } from './desk.ts'
import type { Fixed } from './sky.ts'

/** Looking things up in the catalogue and among the host's own. */
export interface ObjectDesk {
  /** Things called so, of the kind or in the constellation named; the host's own first. Where nothing answers, a slip of typing in a word is forgiven. */
  search(query: string, limit: number): readonly ObjectHit[]
  /** The canonical object for a key or any alias; not-found otherwise. `canonicalKey` differs for an alias. */
  find(key: string): { readonly canonicalKey: string; readonly object: ShowObject | ObjectHit }
  /** What telescopes may be given within 5 degrees of a thing with a fixed place, nearest first; not-found for a strange key. */
  near(key: string, limit: number): readonly Neighbour[]
  /** The outreach object or the host's own, or undefined for any other key; a thing of the host's that was taken off the list is still known. */
  show(key: string): ShowObject | undefined
  /** What is told of a thing in a language, on a night when it is named: the host's words before those that ship, part by part. */
  story(key: string, language: string, nightId?: string): Story | undefined
  /** What happened on Earth while light was on its way, told in a language, oldest first. */
  worldEvents(language: string): readonly WorldEvent[]
  /** What a language calls things of the catalogue, by their names there; those that it calls the same are left out. */
  namesIn(language: string): ReadonlyMap<string, string>
}

interface Needs {
  readonly objects: ObjectStore
  readonly ownObjects: OwnObjectStore
  readonly worldEvents: WorldEventStore
  readonly story: ObjectDesk['story']
}

/** Looking things up in the catalogue and among the host's own. */
export function objectDesk({ objects, ownObjects, worldEvents, story }: Needs): ObjectDesk {
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
    namesIn: objects.namesIn,
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
export function fixedOf(objects: Pick<ObjectDesk, 'find'>, stars: StarStore, key: string): Fixed {
  const { canonicalKey, object } = objects.find(key)
  const star = 'body' in object ? placeOf(object) : stars.find(canonicalKey)
  if (!star) throw new Fault('conflict', 'fault.no-fixed-place', { name: object.name })
  return { key, star, magnitude: object.magnitude }
}

function placeOf({ raDeg, decDeg, pmRaMasYr, pmDecMasYr, parallaxMas }: ShowObject): StarPlace | undefined {
  return raDeg === null || decDeg === null ? undefined : { raDeg, decDeg, pmRaMasYr, pmDecMasYr, parallaxMas }
}
