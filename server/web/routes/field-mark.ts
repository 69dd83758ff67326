import { Value } from 'typebox/value'
import { invalid } from '../../errors.ts'
import { MARK_KINDS, MARK_PAYLOADS, MarkDraft } from '../../tours/mark.ts'
import type { FormValues } from './form-values.ts'

/** The mark of a form of the field page; throws a Fault for a form that no page of ours has made. */
export function fieldMark(stationId: string, { key = '', kind: named, ...payload }: FormValues): MarkDraft {
  const kind = MARK_KINDS.find((known) => known === named)
  if (!kind) throw invalid([{ field: 'kind', key: 'problem.choice' }])
  const draft = { key, kind, stationId, payload, secondsAgo: 0 }
  if (!Value.Check(MarkDraft, draft)) throw invalid([{ field: 'key', key: 'problem.pattern' }])
  if (!Value.Check(MARK_PAYLOADS[kind], payload)) throw invalid([{ field: 'payload', key: 'problem.choice' }])
  return draft
}
