import { digestOf } from './digest.ts'
import type { NightFile } from './night-file.ts'

type Renames = ReadonlyMap<string, string>

/** For every kind of thing in a file, the ids that it gets where it is brought in; those that stay need no entry. */
export interface FileIds {
  readonly site: Renames
  readonly telescope: Renames
  readonly part: Renames
  readonly night: Renames
  readonly station: Renames
  readonly wish: Renames
  readonly programme: Renames
  readonly thing: Renames
  readonly mark: Renames
}

/**
 * The id itself, or one made of it while what it stands for here is another thing: from the same file always the same, so
 * that a file that comes twice finds what it brought.
 */
export function freeId(id: string, isTaken: (id: string) => boolean): string {
  let free = id
  while (isTaken(free)) free = `${/^own-/.exec(free)?.[0] ?? ''}${digestOf(`again ${free}`)}`
  return free
}

type Setups = NightFile['programmes'][number]['stops'][number]['setups']
type Remarks = NightFile['programmes'][number]['notices']

/** The file with its ids as they are where it is brought in, and all that names them with them. */
export function withIds(file: NightFile, ids: FileIds): NightFile {
  const as = (kind: keyof FileIds, id: string): string => ids[kind].get(id) ?? id
  const part = <Part extends { id: string }>(it: Part): Part => ({ ...it, id: as('part', it.id) })
  const stationOrNull = (id: string | null): string | null => id && as('station', id)
  return {
    ...file,
    site: { ...file.site, id: as('site', file.site.id) },
    telescopes: file.telescopes.map((telescope) => ({
      ...telescope,
      id: as('telescope', telescope.id),
      tubes: telescope.tubes.map(part),
      eyepieces: telescope.eyepieces.map(part),
      factors: telescope.factors.map(part),
    })),
    night: { ...file.night, id: as('night', file.night.id) },
    stations: file.stations.map((station) => ({
      ...station,
      id: as('station', station.id),
      telescopeId: station.telescopeId && as('telescope', station.telescopeId),
    })),
    things: file.things.map((thing) => ({ ...thing, key: as('thing', thing.key) })),
    ownWords: file.ownWords.map((words) => ({ ...words, key: as('thing', words.key) })),
    wishes: file.wishes.map((wish) => ({
      ...wish,
      id: as('wish', wish.id),
      stationId: stationOrNull(wish.stationId ?? null),
      targetKey: wish.targetKey ? as('thing', wish.targetKey) : null,
    })),
    programmes: file.programmes.map((programme) => programmeWithIds(programme, as)),
    marks: file.marks.map((mark) => ({
      ...mark,
      key: as('mark', mark.key),
      stationId: stationOrNull(mark.stationId),
      payload: payloadWithIds(mark.payload, as),
    })),
  }
}

type As = (kind: keyof FileIds, id: string) => string

function programmeWithIds(programme: NightFile['programmes'][number], as: As): NightFile['programmes'][number] {
  const setups = (list: Setups): Setups =>
    list.map((setup) => ({
      ...setup,
      tubeId: as('part', setup.tubeId),
      eyepieceId: setup.eyepieceId
        .split('*')
        .map((id) => as('part', id))
        .join('*'),
    }))
  const remarks = (list: Remarks): Remarks =>
    list.map((remark) => (remark.values ? { ...remark, values: valuesWithIds(remark.values, as) } : remark))
  const placed = <Placed extends { stationId: string; targetKey: string; setups: Setups }>(it: Placed): Placed => ({
    ...it,
    stationId: as('station', it.stationId),
    targetKey: as('thing', it.targetKey),
    setups: setups(it.setups),
  })
  return {
    ...programme,
    id: as('programme', programme.id),
    stops: programme.stops.map((stop) => ({ ...placed(stop), reasons: remarks(stop.reasons) })),
    spares: programme.spares.map(placed),
    notices: remarks(programme.notices),
  }
}

/** A remark may name a thing or a station. */
const valuesWithIds = (values: NonNullable<Remarks[number]['values']>, as: As) =>
  Object.fromEntries(
    Object.entries(values).map(([name, value]) => [
      name,
      typeof value === 'string' ? as('thing', as('station', value)) : value,
    ]),
  )

const NAMING = { targetKey: 'thing', tourId: 'programme', markKey: 'mark' } as const

function payloadWithIds(payload: NightFile['marks'][number]['payload'], as: As): Record<string, unknown> {
  const named = Object.entries(NAMING).flatMap(([field, kind]) => {
    const id = payload[field]
    return typeof id === 'string' ? [[field, as(kind, id)] as const] : []
  })
  return { ...payload, ...Object.fromEntries(named) }
}
