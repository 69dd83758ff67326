import type { Night, Station } from '../tours/night.ts'
import type { FileThing, FileWords, NightFile } from '../tours/night-file.ts'
import { besideParts } from './carry-beside.ts'
import { rowInFile } from './carry-out.ts'
import { type Part, part } from './carry-part.ts'
import type { Stores } from './stores.ts'

/** The ground of a night: its site, its telescopes, and what they and the things are called. */
export function groundParts(stores: Stores, { site, siteNotes, telescopes }: NightFile): readonly Part[] {
  return [
    part({
      name: 'site',
      here: () => stores.sites.find(site.id),
      there: site,
      keep: (isHere) => stores.sites[isHere ? 'change' : 'add'](site),
    }),
    ...(siteNotes === null
      ? []
      : [
          part({
            name: 'site-notes',
            here: () => stores.siteNotes.find(site.id),
            there: siteNotes,
            keep: () => stores.siteNotes.put(site.id, siteNotes),
          }),
        ]),
    ...telescopes.map((telescope) =>
      part({
        name: 'telescopes',
        here: () => stores.telescopes.find(telescope.id),
        there: telescope,
        keep: (isHere) => stores.telescopes[isHere ? 'change' : 'add'](telescope),
      }),
    ),
  ]
}

interface ThingGround {
  readonly stores: Pick<Stores, 'ownObjects' | 'ownWords'>
  /** What is called so already. */
  readonly keyOf: (name: string) => string | undefined
  readonly now: Date
}

/** Things of the host's. One whose name is another's here is brought in off the list. */
export const thingParts = (
  { stores: { ownObjects }, keyOf, now }: ThingGround,
  things: readonly FileThing[],
): readonly Part[] =>
  things.map((thing) =>
    part({
      name: 'things',
      here: () => ownObjects.find(thing.key)?.draft,
      there: thing.draft,
      keep(isHere) {
        if (isHere) ownObjects.change(thing.key, thing.draft, now)
        else ownObjects.bring({ ...thing, isListed: thing.isListed && keyOf(thing.draft.name) === undefined })
      },
    }),
  )

export const wordParts = (
  { stores: { ownWords } }: Pick<ThingGround, 'stores'>,
  words: readonly FileWords[],
  nightId?: string,
): readonly Part[] =>
  words.map(({ key, language, isTonight, words: there }) => {
    const ofNight = isTonight ? nightId : undefined
    return part({
      name: 'words',
      here() {
        const written = ownWords.find(key, language, ofNight)
        return Object.keys(written).length === 0 ? undefined : written
      },
      there,
      keep: () => ownWords.put(key, language, there, ofNight),
    })
  })

const FIELDS = {
  title: ['title'],
  date: ['date'],
  hours: ['opens', 'closes'],
  settings: ['settings'],
  visitors: ['visitors'],
} as const

/** What the host set up of a night that is here. */
export function nightParts(stores: Stores, file: NightFile, now: Date): readonly Part[] {
  const { id } = file.night
  const here = () => stores.nights.find(id)
  const change = (fields: Partial<Night>): void => {
    const night = here()
    if (night) stores.nights.change({ ...night, ...fields })
  }
  const picked = (from: NightFile['night'], names: readonly (keyof NightFile['night'])[]) =>
    Object.fromEntries(names.map((name) => [name, from[name]]))
  const fields = Object.entries(FIELDS).map(([name, names]) => {
    const there = picked(file.night, names)
    return part({
      name: name as keyof typeof FIELDS,
      here: () => nightHere(stores, id, (night) => picked(night, names)),
      there,
      keep: () => change(there),
    })
  })
  const state = part({
    name: 'state',
    here: () => here()?.state,
    there: file.night.state,
    keep: () => change({ state: file.night.state }),
  })
  const place = part({
    name: 'site',
    here: () => here()?.site.id,
    there: file.site.id,
    keep() {
      const site = stores.sites.find(file.site.id)
      if (site) change({ site })
    },
  })
  const stations = part({
    name: 'row',
    here: () => nightHere(stores, id, (_night, stations) => stations.filter(({ isInRow }) => isInRow)),
    there: file.stations.filter(({ isInRow }) => isInRow),
    keep: () =>
      change({
        stations: stationsFrom(
          stores,
          file.stations.filter(({ isInRow }) => isInRow),
        ),
      }),
  })
  return [place, ...fields, stations, ...besideParts(stores, file, now), state]
}

/** Stations of a file with their telescopes, which are here by then. */
export const stationsFrom = ({ telescopes }: Pick<Stores, 'telescopes'>, stations: NightFile['stations']): Station[] =>
  stations.map(({ telescopeId, isInRow: _isInRow, ...station }) => ({
    ...station,
    telescope: telescopeId === null ? null : (telescopes.find(telescopeId) ?? null),
  }))

function nightHere<Result>(
  stores: Stores,
  id: string,
  pick: (night: NightFile['night'], stations: NightFile['stations']) => Result,
): Result | undefined {
  const night = stores.nights.find(id)
  if (!night) return undefined
  const row = rowInFile(stores.nights.everyStation, night)
  return pick(row.night, row.stations)
}
