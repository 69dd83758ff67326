import type { Problem } from '../errors.ts'
import { STATION_KINDS } from './mark.ts'
import { payloadProblems } from './mark-payload.ts'
import type { FileThing, FileWords, NightFile, ThingsFile } from './night-file.ts'
import { ownObjectProblems } from './own-problems.ts'
import { languageCode } from './own-words.ts'
import { nightProblems, siteProblems, telescopeProblems } from './problems.ts'

const LONG_AGO = new Date(0)

const behind = (path: string, problems: readonly Problem[]): Problem[] =>
  problems.map((problem) => ({ ...problem, field: problem.field === '' ? path : `${path}.${problem.field}` }))

/** What is wrong with a night's file that fits its schema; `knows` says whether a key is of the catalogue. */
export function nightFileProblems(file: NightFile, knows: (key: string) => boolean): Problem[] {
  return [
    ...behind('site', siteProblems(withoutId(file.site))),
    ...file.telescopes.flatMap((telescope, i) =>
      behind(`telescopes.${i}`, telescopeProblems(plainTelescope(telescope))),
    ),
    ...headingProblems(file),
    ...thingProblems(file),
    ...twice(file),
    ...danglers(file, knows),
    ...file.marks.flatMap((mark, i) => carriedProblems(mark, `marks.${i}`)),
    ...file.programmes.flatMap(({ stops }, i) =>
      stops.flatMap(({ startsAt, endsAt }, j) =>
        startsAt < endsAt ? [] : [{ field: `programmes.${i}.stops.${j}.endsAt`, key: 'carry.not-after' }],
      ),
    ),
  ]
}

/** What is wrong with a file of things that fits its schema. */
export function thingsFileProblems(file: ThingsFile, knows: (key: string) => boolean): Problem[] {
  const own = new Set(file.things.map(({ key }) => key))
  return [
    ...thingProblems(file),
    ...twiceIn(
      'things',
      file.things.map(({ key }) => key),
    ),
    ...twiceIn('ownWords', file.ownWords.map(wordsId)),
    ...file.ownWords.flatMap(({ key, isTonight }, i) => {
      if (isTonight) return [{ field: `ownWords.${i}.isTonight`, key: 'problem.choice' }]
      return own.has(key) || knows(key)
        ? []
        : [{ field: `ownWords.${i}.key`, key: 'carry.names-nothing', values: { id: key } }]
    }),
  ]
}

const wordsId = ({ key, language, isTonight }: FileWords): string => `${key} ${language} ${isTonight}`

/** What is wrong with the things and words of a file. */
const thingProblems = ({ things, ownWords }: Pick<NightFile, 'things' | 'ownWords'>): Problem[] => [
  ...things.flatMap(({ draft }, i) => behind(`things.${i}.draft`, ownObjectProblems(draft))),
  ...ownWords.flatMap(({ language }, i) =>
    languageCode(language) === language ? [] : [{ field: `ownWords.${i}.language`, key: 'problem.language-unknown' }],
  ),
]

function withoutId<Thing extends { readonly id: string }>({ id: _id, ...thing }: Thing): Omit<Thing, 'id'> {
  return thing
}

const plainTelescope = ({ isPutAway: _isPutAway, ...telescope }: NightFile['telescopes'][number]) => ({
  ...withoutId(telescope),
  tubes: telescope.tubes.map(withoutId),
  eyepieces: telescope.eyepieces.map(withoutId),
  factors: telescope.factors.map(withoutId),
})

/** The night may lie in the past. */
function headingProblems({ night, site, stations }: NightFile): Problem[] {
  const { id: _id, state: _state, ...heading } = night
  const row = stations.filter(({ isInRow }) => isInRow).map(({ isInRow: _isInRow, ...station }) => withoutId(station))
  return nightProblems({ ...heading, siteId: site.id, stations: row }, LONG_AGO, site.zone).map((problem) => ({
    ...problem,
    field: problem.field.startsWith('stations') ? problem.field : `night.${problem.field}`,
  }))
}

/** Ids, keys and numbers that stand for two things at once. */
function twice(file: NightFile): Problem[] {
  const oculars = file.telescopes.flatMap(({ tubes, eyepieces, factors }) => [...tubes, ...eyepieces, ...factors])
  const lists: readonly (readonly [field: string, ids: readonly (string | number)[]])[] = [
    ['telescopes', file.telescopes.map(({ id }) => id)],
    ['telescopes', oculars.map(({ id }) => id)],
    ['stations', file.stations.map(({ id }) => id)],
    ['things', file.things.map(({ key }) => key)],
    ['ownWords', file.ownWords.map(wordsId)],
    ['wishes', file.wishes.map(({ id }) => id)],
    ['programmes', file.programmes.map(({ id }) => id)],
    ['programmes', file.programmes.map(({ version }) => version)],
    ['marks', file.marks.map(({ key }) => key)],
    ['marks', file.marks.map(({ seq }) => seq)],
  ]
  return lists.flatMap(([field, ids]) => twiceIn(field, ids))
}

function twiceIn(field: string, ids: readonly (string | number)[]): Problem[] {
  const place = doubled(ids)
  return place < 0 ? [] : [{ field: `${field}.${place}`, key: 'carry.twice', values: { id: ids[place] ?? '' } }]
}

function doubled(ids: readonly (string | number)[]): number {
  const seen = new Set<string | number>()
  return ids.findIndex((id) => seen.size === seen.add(id).size)
}

/** What names something that is neither in the file nor in the catalogue. */
function danglers(file: NightFile, knows: (key: string) => boolean): Problem[] {
  const stations = new Set(file.stations.map(({ id }) => id))
  const kit = new Set(file.telescopes.map(({ id }) => id))
  const things = new Set(file.things.map(({ key }) => key))
  const missing = (field: string, id: string | null | undefined, isThere: (id: string) => boolean): Problem[] =>
    id === null || id === undefined || isThere(id) ? [] : [{ field, key: 'carry.names-nothing', values: { id } }]
  const isStation = (id: string): boolean => stations.has(id)
  const isTarget = (key: string): boolean => things.has(key) || knows(key)
  const targeted = (field: string, { stationId, targetKey }: Targeted): Problem[] => [
    ...missing(`${field}.stationId`, stationId, isStation),
    ...missing(`${field}.targetKey`, targetKey, isTarget),
  ]
  return [
    ...file.stations.flatMap(({ telescopeId }, i) =>
      missing(`stations.${i}.telescopeId`, telescopeId, (id) => kit.has(id)),
    ),
    ...file.wishes.flatMap((wish, i) => targeted(`wishes.${i}`, wish)),
    ...file.programmes.flatMap(({ stops, spares }, i) => [
      ...stops.flatMap((stop, j) => targeted(`programmes.${i}.stops.${j}`, stop)),
      ...spares.flatMap((spare, j) => targeted(`programmes.${i}.spares.${j}`, spare)),
    ]),
    ...file.marks.flatMap(({ stationId, payload }, i) =>
      targeted(`marks.${i}`, {
        stationId,
        targetKey: typeof payload.targetKey === 'string' ? payload.targetKey : null,
      }),
    ),
    ...file.ownWords.flatMap(({ key }, i) => missing(`ownWords.${i}.key`, key, isTarget)),
  ]
}

interface Targeted {
  readonly stationId?: string | null
  readonly targetKey?: string | null
}

function carriedProblems({ kind, payload, stationId }: NightFile['marks'][number], field: string): Problem[] {
  if (STATION_KINDS.has(kind) && stationId === null) return [{ field: `${field}.stationId`, key: 'problem.required' }]
  return behind(`${field}.payload`, payloadProblems(kind, payload))
}

/** Every key that the programmes, marks and wishes of a night name. */
export const namedKeys = ({
  programmes,
  marks,
  wishes,
}: Pick<NightFile, 'programmes' | 'marks' | 'wishes'>): ReadonlySet<string> =>
  new Set([
    ...programmes.flatMap(({ stops, spares }) => [...stops, ...spares].map(({ targetKey }) => targetKey)),
    ...marks.flatMap(({ payload: { targetKey } }) => (typeof targetKey === 'string' ? [targetKey] : [])),
    ...wishes.flatMap(({ targetKey }) => targetKey ?? []),
  ])

/** True when two things of a host are the same one, changed or not: by its name or by its place. */
export const isSameThing = (one: FileThing['draft'], other: FileThing['draft']): boolean =>
  one.name === other.name || (one.raDeg !== undefined && one.raDeg === other.raDeg && one.decDeg === other.decDeg)
