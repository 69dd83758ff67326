import { isDeepStrictEqual } from 'node:util'
import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { type Mark, MarkDraft, type MarkKind, STATION_KINDS } from '../tours/mark.ts'
import { payloadProblems } from '../tours/mark-payload.ts'
import { schemaProblems } from '../tours/schema-problems.ts'
import type { Stores } from './stores.ts'

/** What a mark is measured against: the stations and the things of its night. */
export interface MarkGround extends Pick<Stores, 'marks' | 'tours'> {
  readonly nightId: string
  readonly stationIds: ReadonlySet<string>
  readonly knowsObject: (key: string) => boolean
  readonly may: (kind: MarkKind) => boolean
}

/** What is wrong with something sent as a mark, as data; [] when it can be read. */
export const draftProblems = (draft: unknown): Problem[] => schemaProblems(Value.Errors(MarkDraft, draft), MarkDraft)

/** What is wrong with a new mark on this night; [] when it can be kept. */
export function markProblems({ kind, payload, stationId }: MarkDraft, ground: MarkGround): Problem[] {
  const { marks, tours, nightId } = ground
  const wrong = payloadProblems(kind, payload)
  if (wrong.length > 0) return wrong.map((problem) => inside('payload', problem))
  const [target, mark, tour] = [payload.targetKey, payload.markKey, payload.tourId].map(textOrNull)
  return [
    ...unless(ground.may(kind), 'kind', 'problem.not-yours'),
    ...unless(!mark || mayTakeBack(mark, ground), 'payload.markKey', 'problem.not-yours'),
    ...unless(stationId !== null || !STATION_KINDS.has(kind), 'stationId', 'problem.required'),
    ...unless(stationId === null || ground.stationIds.has(stationId), 'stationId', 'problem.station-unknown'),
    ...unless(!target || ground.knowsObject(target), 'payload.targetKey', 'problem.object-unknown'),
    ...unless(!mark || marks.find(mark)?.nightId === nightId, 'payload.markKey', 'problem.mark-unknown'),
    ...unless(!tour || tours.find(tour)?.nightId === nightId, 'payload.tourId', 'problem.tour-unknown'),
  ]
}

/** How many undos may name one another in a row; nobody's page makes two. */
const LONGEST_CHAIN = 20

/** True for an act that the sender may make, however often it was taken back and put back before; for one not known too. */
function mayTakeBack(markKey: string, { marks, may }: MarkGround): boolean {
  let named: string | null = markKey
  for (let step = 0; step < LONGEST_CHAIN && named !== null; step++) {
    const mark = marks.find(named)
    if (mark?.kind !== 'undo') return mark === undefined || may(mark.kind)
    named = textOrNull(mark.payload.markKey)
  }
  return false
}

/** A key names one act for good: the same act again is the kept one, another act under it is refused. */
export function reuseProblems(kept: Mark, { kind, stationId, payload }: MarkDraft, nightId: string): Problem[] {
  const before = [kept.nightId, kept.kind, kept.stationId, kept.payload]
  return unless(isDeepStrictEqual(before, [nightId, kind, stationId, payload]), 'key', 'problem.key-taken')
}

/** The problem with the part of the input that it lies in before its field. */
export const inside = (part: string, problem: Problem): Problem => ({ ...problem, field: `${part}.${problem.field}` })

const unless = (isFine: boolean, field: string, key: string): Problem[] => (isFine ? [] : [{ field, key }])

const textOrNull = (value: unknown): string | null => (typeof value === 'string' ? value : null)
