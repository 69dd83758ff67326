import { Compile } from 'typebox/compile'
import type { Phone } from '../../db/phones.ts'
import type { Clock } from '../clock.ts'
import { invalid, notFound, type Problem } from '../errors.ts'
import type { FieldState } from '../tours/field.ts'
import { type Mark, MarkDraft, type MarkKind, type RecordedMarks } from '../tours/mark.ts'
import type { Tour } from '../tours/tour.ts'
import { fieldMemo } from './field-memo.ts'
import { newId } from './ids.ts'
import type { MarkLog } from './mark-log.ts'
import { draftProblems, inside, type MarkGround, markProblems, reuseProblems } from './mark-problems.ts'
import { mayMark } from './mark-rights.ts'
import type { Stores } from './stores.ts'

/** Keeping acts, and what they fold into. */
export interface MarkDesk {
  /**
   * Keeps each mark once (a repeated key answers the kept one) and answers only when all that are kept are on the disk.
   * `by` is the name of whoever acts; what their role may not do is refused. One that cannot be kept stops no other; when none can, that is an invalid Fault, its fields behind their places.
   */
  record(nightId: string, drafts: readonly unknown[], by: string, role: Phone['role']): RecordedMarks
  /** Runs `work` so that all marks it keeps go to the disk at once, or none. */
  together<Result>(work: () => Result): Result
  since(nightId: string, seq: number): readonly Mark[]
  field(nightId: string): FieldState
  /** `<epoch>.<seq>` of the newest mark. */
  version(nightId: string): string
}

type Needs = Pick<Stores, 'marks' | 'nights' | 'tours'> & {
  readonly clock: Clock
  readonly log: MarkLog
  readonly knowsObject: (key: string) => boolean
  readonly programme: (nightId: string) => Tour | undefined
}

const draftCheck = Compile(MarkDraft)

type Verdict = { readonly mark: Mark } | { readonly key: string | null; readonly problems: readonly Problem[] }

/** Keeping the night's acts, and the state they fold into. */
export function markDesk({ marks, nights, tours, clock, log, knowsObject, programme }: Needs): MarkDesk {
  // New at every start: the numbers may have gone back since, by a backup put in the folder, and only thus phones notice.
  const epoch = newId()
  const foldOf = fieldMemo()

  // A night never goes away, and reading one whole for each question would be most of the work of a mark.
  const sure = new Set<string>()

  function makeSure(nightId: string): void {
    if (sure.has(nightId)) return
    if (!nights.find(nightId)) throw notFound('night')
    sure.add(nightId)
  }

  function keep(draft: unknown, ground: MarkGround, by: string, receivedAt: Date): Verdict {
    if (!draftCheck.Check(draft)) return { key: keyOf(draft), problems: draftProblems(draft) }
    const { key, kind, stationId, payload } = draft
    const kept = marks.find(key)
    const problems = kept ? reuseProblems(kept, draft, ground.nightId) : markProblems(draft, ground)
    if (problems.length > 0) return { key, problems }
    const happenedAt = new Date(receivedAt.getTime() - draft.secondsAgo * 1000 * clock.speed)
    const mark = { key, nightId: ground.nightId, stationId, kind, payload, by, receivedAt, happenedAt }
    return { mark: kept ?? marks.keep(mark) }
  }

  return {
    record(nightId, drafts, by, role) {
      makeSure(nightId)
      const stationIds = new Set(nights.everyStationId(nightId))
      const may = (kind: MarkKind) => mayMark(role, kind)
      const ground = { marks, tours, nightId, stationIds, knowsObject, may }
      const receivedAt = clock.now()
      return recorded(marks.together(() => drafts.map((draft) => keep(draft, ground, by, receivedAt))))
    },
    together: marks.together,
    since(nightId, seq) {
      makeSure(nightId)
      const acts = log.all(nightId)
      return acts.slice(acts.findLastIndex((mark) => mark.seq <= seq) + 1)
    },
    field(nightId) {
      makeSure(nightId)
      const night = { id: nightId, stations: nights.rowIds(nightId).map((id) => ({ id })) }
      return foldOf({ night, tour: programme(nightId) ?? null, marks: log.all(nightId), at: clock.now() })
    },
    version(nightId) {
      makeSure(nightId)
      return `${epoch}.${marks.newestSeq(nightId)}`
    },
  }
}

function recorded(verdicts: readonly Verdict[]): RecordedMarks {
  const kept = verdicts.flatMap((verdict) => ('mark' in verdict ? [verdict.mark] : []))
  const refused = verdicts.flatMap((verdict) => ('mark' in verdict ? [] : [verdict]))
  if (kept.length > 0) return { kept, refused }
  throw invalid(refused.flatMap(({ problems }, place) => problems.map((problem) => inside(String(place), problem))))
}

const keyOf = (draft: unknown): string | null =>
  typeof draft === 'object' && draft !== null && 'key' in draft && typeof draft.key === 'string' ? draft.key : null
