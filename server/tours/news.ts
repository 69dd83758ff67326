import { actsUntil } from './fold.ts'
import type { Mark, MarkKind } from './mark.ts'
import { type Payload, payloadOf } from './mark-payload.ts'
import type { Night } from './night.ts'
import type { SkyPart } from './sky-part.ts'
import { countOf, peopleAt } from './visitors.ts'

/** What has become of a night since its programme was made, as its standing marks tell it at an instant. */
export interface News {
  /** Parts of the sky that clouds shut, until an instant or for the rest of the night. */
  readonly shut: readonly SkyPart[]
  readonly shutUntilAt: Date | null
  /** Stations that have left the row. */
  readonly out: readonly string[]
  /** Seconds that a look takes, where people were timed. */
  readonly cycleSec: ReadonlyMap<string, number>
  /** People counted on the field as a share of those expected at that time; 1 while nobody counts. */
  readonly crowd: number
}

/** A count at the gate, or people timed, say something about so many minutes after it. */
export const COUNT_HOLDS_MIN = 60
/** Nobody plans for less than a fifth of a field, or for more than five. */
const CROWD = { least: 0.2, most: 5 }

/** The news at an instant; marks that came after it are left out. */
export function newsOf(night: Night, marks: readonly Mark[], at: Date): News {
  const acts = actsUntil(marks, at)
  const clouds = told(acts, 'clouds').at(-1)
  const { shut = [], minutes = null } = clouds?.payload ?? {}
  const untilAt = clouds && minutes !== null ? new Date(clouds.mark.happenedAt.getTime() + minutes * 60_000) : null
  const isOver = untilAt !== null && untilAt <= at
  return {
    shut: isOver ? [] : shut,
    shutUntilAt: isOver ? null : untilAt,
    out: night.stations.map(({ id }) => id).filter((id) => isOut(acts, id)),
    cycleSec: new Map(
      told(acts, 'timed').flatMap(({ mark, payload }) =>
        mark.stationId === null ? [] : [[mark.stationId, payload.seconds / payload.people] as const],
      ),
    ),
    crowd: crowdAt(night, acts, at),
  }
}

/** True when there is nothing that a programme would have to take into account. */
export const isNoNews = ({ shut, out, cycleSec, crowd }: News): boolean =>
  shut.length === 0 && out.length === 0 && cycleSec.size === 0 && crowd === 1

interface Told<Kind extends MarkKind> {
  readonly mark: Mark
  readonly payload: Payload<Kind>
}

/** The marks of a kind that can be read, in their order. */
function told<Kind extends MarkKind>(acts: readonly Mark[], kind: Kind): Told<Kind>[] {
  return acts.flatMap((mark) => {
    const payload = payloadOf(kind, mark)
    return payload === null ? [] : [{ mark, payload }]
  })
}

const isOut = (acts: readonly Mark[], stationId: string): boolean =>
  told(
    acts.filter((mark) => mark.stationId === stationId),
    'station',
  ).at(-1)?.payload.is === 'out'

function crowdAt(night: Night, acts: readonly Mark[], at: Date): number {
  const counts = told(acts, 'counted')
  const last = counts.at(-1)?.mark.happenedAt
  if (last === undefined || at.getTime() - last.getTime() > COUNT_HOLDS_MIN * 60_000) return 1
  const hereOf = (sort: 'adults' | 'children') =>
    counts.reduce((sum, { payload }) => Math.max(0, sum + payload[sort]), 0)
  const here = hereOf('adults') + hereOf('children')
  const expected = countOf(peopleAt(night, last))
  return here === 0 || expected === 0 ? 1 : Math.min(CROWD.most, Math.max(CROWD.least, here / expected))
}
