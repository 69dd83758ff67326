import { standing } from './fold.ts'
import type { Mark, MarkKind } from './mark.ts'
import { payloadOf } from './mark-payload.ts'
import type { Stop, Tour } from './tour.ts'

type Version = Pick<Tour, 'id' | 'version' | 'tookOverAtSeq'>

/** True once something has been shown: a standing mark says so, or the programme's first stop has come; no act means as planned. */
export const hasBegun = (
  tour: { readonly stops: readonly Pick<Stop, 'startsAt'>[] } | undefined,
  marks: readonly Mark[],
  at: Date,
): boolean =>
  tour?.stops.some(({ startsAt }) => startsAt <= at) === true ||
  standing(marks).some(({ kind }) => kind === 'showing' || kind === 'shown')

/**
 * The version that the row goes by: the one that took over last, by being built before the night began or by being
 * accepted, in the order of the marks; undefined before the first.
 */
export function currentVersion<Kept extends Version>(
  versions: readonly Kept[],
  marks: readonly Mark[],
): Kept | undefined {
  const accepted = named(marks, ['accepted']).flatMap(({ seq, tourId }) => {
    const version = versions.find(({ id }) => id === tourId)
    return version ? [{ version, seq }] : []
  })
  const built = versions.flatMap((version) => {
    const seq = version.tookOverAtSeq
    return seq === null ? [] : [{ version, seq: seq + AFTER_ITS_MARK }]
  })
  const turns = [...accepted, ...built].sort((a, b) => a.seq - b.seq || a.version.version - b.version.version)
  return turns.at(-1)?.version
}

const AFTER_ITS_MARK = 0.5

/** The newest version while it waits: built after the night began, neither accepted nor dropped; undefined when none waits. */
export function waitingVersion<Kept extends Version>(
  versions: readonly Kept[],
  marks: readonly Mark[],
): Kept | undefined {
  const newest = [...versions].sort((a, b) => a.version - b.version).at(-1)
  if (newest?.tookOverAtSeq !== null) return undefined
  return named(marks, ['accepted', 'dropped']).some(({ tourId }) => tourId === newest.id) ? undefined : newest
}

/** The programmes that standing marks of these kinds name. */
function named(
  marks: readonly Mark[],
  kinds: readonly ('accepted' | 'dropped')[],
): readonly { readonly seq: number; readonly tourId: string }[] {
  // Most nights have none, and telling which marks stand reads all of them.
  const asked: readonly MarkKind[] = kinds
  if (!marks.some(({ kind }) => asked.includes(kind))) return []
  return standing(marks).flatMap((mark) =>
    kinds.flatMap((kind) => {
      const tourId = payloadOf(kind, mark)?.tourId
      return tourId === undefined ? [] : [{ seq: mark.seq, tourId }]
    }),
  )
}
