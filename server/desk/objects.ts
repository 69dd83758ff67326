import { foldText } from '../../db/catalogue/fold.ts'
import type { ObjectStore } from '../../db/objects.ts'
import type { OwnObjectStore } from '../../db/own-objects.ts'
import type { PlaceStore } from '../../db/places.ts'
import type { StarStore } from '../../db/stars.ts'
import { Fault, invalid, notFound } from '../errors.ts'
import type { StarPlace } from '../sky/star.ts'
import { type OwnObjectDraft, ownObject, ownObjectProblems } from '../tours/own-object.ts'
import type { ObjectHit, ShowObject } from '../tours/target.ts'
import type { Desk } from './desk.ts'
import { newId } from './ids.ts'
import type { Fixed } from './sky.ts'

interface Needs {
  readonly objects: ObjectStore
  readonly ownObjects: OwnObjectStore
}

/** Looking things up in the catalogue and among the host's own, and keeping the latter. */
export function objectDesk({ objects, ownObjects }: Needs): Desk['objects'] {
  const known = knownIn({ objects, ownObjects })

  return {
    search: (query, limit) => [...ownObjects.search(query), ...objects.search(query, limit)].slice(0, limit),
    find(key) {
      const found = known(key)
      if (!found) throw notFound('object')
      return found
    },
    show: (key) => objects.show(key) ?? ownObjects.find(key),
    story: objects.story,
    own: ownObjects.all,
    addOwn(draft) {
      assertFine(draft, (name) => known(name) !== undefined)
      const object = ownObject(draft, newId())
      ownObjects.add(object)
      return object
    },
    removeOwn(key) {
      if (!ownObjects.remove(key)) throw notFound('object')
    },
  }
}

type Found = { readonly canonicalKey: string; readonly object: ShowObject | ObjectHit }

/** Looks a key, alias or name up; a thing of the host's that was taken off the list is still known by its key. */
export const knownIn =
  ({ objects, ownObjects }: Needs) =>
  (key: string): Found | undefined => {
    const found = objects.find(key)
    if (found) return found
    const object = ownObjects.find(key) ?? ownObjects.called(key)
    return object && { canonicalKey: object.key, object }
  }

function assertFine(draft: OwnObjectDraft, isTaken: (name: string) => boolean): void {
  const problems = ownObjectProblems(draft)
  if (problems.length > 0) throw invalid(problems)
  const name = draft.name.trim()
  // A search compares letters and digits alone.
  if (foldText(name) === '') throw invalid([{ field: 'name', key: 'problem.no-letter' }])
  if (isTaken(name)) throw invalid([{ field: 'name', key: 'problem.name-taken', values: { name } }])
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
