import { Value } from 'typebox/value'
import type { FileThing, NightFile } from '../tours/night-file.ts'
import { type FileIds, freeId } from '../tours/night-file-ids.ts'
import { isSameThing } from '../tours/night-file-problems.ts'
import type { Stores } from './stores.ts'

/** Under which ids the things of a file are here: their own, those of the same here, or new ones where an id stands for another thing. */
export function idsHere(stores: Stores, file: NightFile): FileIds {
  const site = matched([file.site], stores.sites.all(), { isSame: isSameSite, isAlike: isAlike(siteMatter) })
  const telescopes = stores.telescopes.all()
  const telescope = matched(file.telescopes, telescopes, {
    isSame: isSameTelescope,
    isAlike: isAlike(telescopeMatter),
  })
  const nightId = freeId(file.night.id, (id) => isOtherNight(stores, file, id))
  return {
    site,
    telescope,
    part: partsHere(file, telescopes, telescope),
    night: new Map([[file.night.id, nightId]]),
    station: free(
      ids(file.stations),
      homes(stores, (id) => ids(stores.nights.everyStation(id))),
      nightId,
    ),
    wish: free(
      ids(file.wishes),
      homes(stores, (id) => ids(stores.wishes.all(id))),
      nightId,
    ),
    programme: free(ids(file.programmes), { get: (id) => stores.tours.find(id)?.nightId }, nightId),
    thing: thingIdsHere(stores, file.things),
    mark: free(
      file.marks.map(({ key }) => key),
      { get: stores.marks.nightOf },
      nightId,
    ),
  }
}

/** The keys under which things of a file are here. */
export function thingIdsHere({ ownObjects }: Pick<Stores, 'ownObjects'>, things: readonly FileThing[]) {
  const named = ({ key, draft }: Pick<FileThing, 'key' | 'draft'>) => ({ id: key, draft })
  return matched(things.map(named), ownObjects.all().map(named), {
    isSame: (one, other) => isSameThing(one.draft, other.draft),
    isAlike: (one, other) => Value.Equal(one.draft, other.draft),
  })
}

interface Identified {
  readonly id: string
}

interface Likeness<Here, There> {
  /** Of two with one id: true when they are one thing, changed or not. */
  readonly isSame: (here: Here, there: There) => boolean
  /** Of two with two ids: true when nothing parts them. */
  readonly isAlike: (here: Here, there: There) => boolean
}

const ids = (things: readonly Identified[]): string[] => things.map(({ id }) => id)

function matched<Here extends Identified, There extends Identified>(
  there: readonly There[],
  here: readonly Here[],
  { isSame, isAlike }: Likeness<Here, There>,
): ReadonlyMap<string, string> {
  const byId = new Map(here.map((thing) => [thing.id, thing]))
  const isOther = (thing: There) => (id: string) => {
    const kept = byId.get(id)
    return kept !== undefined && !isSame(kept, thing)
  }
  const settled = new Set(there.filter((thing) => byId.has(thing.id) && !isOther(thing)(thing.id)).map(({ id }) => id))
  const taken = new Set(settled)
  return new Map(
    there.map((thing) => {
      const alike = here.find((kept) => !taken.has(kept.id) && isAlike(kept, thing))
      const id = settled.has(thing.id) ? thing.id : (alike?.id ?? freeId(thing.id, isOther(thing)))
      taken.add(id)
      return [thing.id, id]
    }),
  )
}

const isAlike =
  <Thing>(matter: (thing: Thing) => unknown) =>
  (one: Thing, other: Thing): boolean =>
    Value.Equal(matter(one), matter(other))

type SiteLike = Pick<NightFile['site'], 'name' | 'latitudeDeg' | 'longitudeDeg'>
const SAME_PLACE_DEG = 0.005
const isSameSite = (one: SiteLike, other: SiteLike): boolean =>
  one.name === other.name ||
  (Math.abs(one.latitudeDeg - other.latitudeDeg) < SAME_PLACE_DEG &&
    Math.abs(one.longitudeDeg - other.longitudeDeg) < SAME_PLACE_DEG)

function siteMatter({ id: _id, ...matter }: object & { readonly id?: string }): object {
  return matter
}

interface Part extends Identified {
  readonly name: string
}
interface TelescopeLike extends Identified {
  readonly name: string
  readonly tubes: readonly (Part & { readonly apertureMm: number; readonly focalLengthMm: number })[]
  readonly eyepieces: readonly Part[]
  readonly factors: readonly Part[]
}

const opticsOf = ({ tubes }: TelescopeLike): string =>
  JSON.stringify(tubes.map(({ apertureMm, focalLengthMm }) => [apertureMm, focalLengthMm]))
const isSameTelescope = (one: TelescopeLike, other: TelescopeLike): boolean =>
  one.name === other.name || opticsOf(one) === opticsOf(other)

const telescopeMatter = ({ tubes, eyepieces, factors, ...telescope }: TelescopeLike): object => ({
  ...siteMatter(telescope),
  tubes: tubes.map(siteMatter),
  eyepieces: eyepieces.map(siteMatter),
  factors: factors.map(siteMatter),
})

const partsOf = ({ tubes, eyepieces, factors }: TelescopeLike): readonly Part[] => [...tubes, ...eyepieces, ...factors]

/** The parts of a telescope that is here alike are those at the same places; those of a new one keep ids that are free. */
function partsHere(
  file: NightFile,
  here: readonly TelescopeLike[],
  telescopeIds: ReadonlyMap<string, string>,
): ReadonlyMap<string, string> {
  const owners = new Map(here.flatMap((telescope) => partsOf(telescope).map(({ id }) => [id, telescope.id] as const)))
  return new Map(
    file.telescopes.flatMap((telescope) => {
      const id = telescopeIds.get(telescope.id) ?? telescope.id
      const kept = here.find((it) => it.id === id)
      const alike = kept && kept.id !== telescope.id ? partsOf(kept) : []
      return partsOf(telescope).map((part, i): [string, string] => [
        part.id,
        alike[i]?.id ?? freeId(part.id, (asked) => (owners.get(asked) ?? id) !== id),
      ])
    }),
  )
}

/** A night here is another one when neither its date, nor its title, nor any station is that of the file. */
function isOtherNight({ nights }: Pick<Stores, 'nights'>, { night, stations }: NightFile, id: string): boolean {
  const kept = nights.find(id)
  if (!kept || kept.date === night.date || kept.title === night.title) return false
  const here = new Set(nights.everyStationId(id))
  return !stations.some((station) => here.has(station.id))
}

interface Homes {
  get(id: string): string | undefined
}

/** For every id the night that it belongs to. */
const homes = ({ nights }: Pick<Stores, 'nights'>, idsOf: (nightId: string) => readonly string[]): Homes =>
  new Map(nights.all().flatMap(({ id }) => idsOf(id).map((it) => [it, id] as const)))

/** Ids that keep their names unless those belong to another night. */
const free = (list: readonly string[], home: Homes, nightId: string): ReadonlyMap<string, string> =>
  new Map(list.map((id) => [id, freeId(id, (asked) => (home.get(asked) ?? nightId) !== nightId)]))
