import { Value } from 'typebox/value'
import { standing } from './fold.ts'
import { MARK_PAYLOADS, type Mark } from './mark.ts'
import type { Tour } from './tour.ts'

type Version = Pick<Tour, 'id' | 'version' | 'tookOverAtSeq'>

/** True once something has been shown: a standing mark of the night says `showing` or `shown`. */
export const hasBegun = (marks: readonly Mark[]): boolean =>
  standing(marks).some(({ kind }) => kind === 'showing' || kind === 'shown')

/**
 * The version that the row goes by: the one that took over last, by being built before the night began or by being
 * accepted, in the order of the marks; undefined before the first.
 */
export function currentVersion<Kept extends Version>(
  versions: readonly Kept[],
  marks: readonly Mark[],
): Kept | undefined {
  const accepted = acceptedIds(marks).flatMap(({ seq, tourId }) => {
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

/** The newest version while it waits: built after the night began, and not accepted; undefined when none waits. */
export function waitingVersion<Kept extends Version>(
  versions: readonly Kept[],
  marks: readonly Mark[],
): Kept | undefined {
  const newest = [...versions].sort((a, b) => a.version - b.version).at(-1)
  if (newest?.tookOverAtSeq !== null) return undefined
  return acceptedIds(marks).some(({ tourId }) => tourId === newest.id) ? undefined : newest
}

const acceptedIds = (marks: readonly Mark[]): readonly { readonly seq: number; readonly tourId: string }[] =>
  standing(marks).flatMap(({ kind, payload, seq }) =>
    kind === 'accepted' && Value.Check(MARK_PAYLOADS.accepted, payload) ? [{ seq, tourId: payload.tourId }] : [],
  )
