import type { FieldState } from './field.ts'
import type { Mark } from './mark.ts'
import { payloadOf } from './mark-payload.ts'
import type { Night, Station } from './night.ts'
import { stationNow } from './station-fold.ts'
import type { Stop } from './tour.ts'

export interface FieldInput {
  readonly night: Pick<Night, 'id'> & { readonly stations: readonly Pick<Station, 'id'>[] }
  /** The accepted programme, or null before one is made. */
  readonly tour: { readonly stops: readonly Stop[] } | null
  readonly marks: readonly Mark[]
  readonly at: Date
}

/**
 * The state of the night at an instant, folded from the programme and the marks: no act means as planned; an undo takes
 * back the mark it names; acts are ordered by when they happened and, at the same moment, by the server's order.
 */
export function foldField({ night, tour, marks, at }: FieldInput): FieldState {
  const acts = actsUntil(marks, at)
  const counts = acts.flatMap((mark) => payloadOf('counted', mark) ?? [])
  return {
    seq: marks.reduce((newest, mark) => Math.max(newest, mark.seq), 0),
    at,
    stations: night.stations.map(({ id }) =>
      stationNow(
        id,
        (tour?.stops ?? []).filter((stop) => stop.stationId === id),
        acts.filter((mark) => mark.stationId === id),
        at,
      ),
    ),
    adultsIn: counts.reduce((sum, count) => notBelowNone(sum + count.adults), 0),
    childrenIn: counts.reduce((sum, count) => notBelowNone(sum + count.children), 0),
  }
}

/** The standing acts until an instant, in the order in which they happened and, at the same moment, the server's. */
export const actsUntil = (marks: readonly Mark[], at: Date): readonly Mark[] =>
  standing(marks)
    .filter(({ happenedAt }) => happenedAt <= at)
    .sort((a, b) => a.happenedAt.getTime() - b.happenedAt.getTime() || a.seq - b.seq)

/** At every step, so that a slip leaves no debt for those who come later to fill. */
const notBelowNone = (people: number): number => Math.max(0, people)

/** The marks that nobody has taken back, without the undos themselves. Newest first, since an undo may be undone. */
export function standing(marks: readonly Mark[]): readonly Mark[] {
  const undone = new Set<string>()
  const kept: Mark[] = []
  for (const mark of [...marks].sort((a, b) => b.seq - a.seq)) {
    if (undone.has(mark.key)) continue
    if (mark.kind !== 'undo') kept.push(mark)
    const undo = payloadOf('undo', mark)
    if (undo) undone.add(undo.markKey)
  }
  return kept
}
