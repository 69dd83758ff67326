import { Value } from 'typebox/value'
import type { Clock } from '../clock.ts'
import { invalid, notFound, type Problem } from '../errors.ts'
import { foldField } from '../tours/fold.ts'
import { type Mark, MarkDraft, type RecordedMarks } from '../tours/mark.ts'
import type { Tour } from '../tours/tour.ts'
import type { Desk } from './desk.ts'
import { newId } from './ids.ts'
import type { MarkLog } from './mark-log.ts'
import { draftProblems, inside, type MarkGround, markProblems, reuseProblems } from './mark-problems.ts'
import type { Stores } from './stores.ts'

type Needs = Pick<Stores, 'marks' | 'nights' | 'tours'> & {
  readonly clock: Clock
  readonly log: MarkLog
  readonly knowsObject: (key: string) => boolean
  readonly programme: (nightId: string) => Tour | undefined
}

type Verdict = { readonly mark: Mark } | { readonly key: string | null; readonly problems: readonly Problem[] }

/** Keeping the night's acts, and the state they fold into. */
export function markDesk({ marks, nights, tours, clock, log, knowsObject, programme }: Needs): Desk['marks'] {
  // New at every start: the numbers may have gone back since, by a backup put in the folder, and only thus phones notice.
  const epoch = newId()

  function nightOf(nightId: string) {
    const night = nights.find(nightId)
    if (!night) throw notFound('night')
    return night
  }

  function keep(draft: unknown, ground: MarkGround, by: string, receivedAt: Date): Verdict {
    if (!Value.Check(MarkDraft, draft)) return { key: keyOf(draft), problems: draftProblems(draft) }
    const { key, kind, stationId, payload } = draft
    const kept = marks.find(key)
    const problems = kept ? reuseProblems(kept, draft, ground.nightId) : markProblems(draft, ground)
    if (problems.length > 0) return { key, problems }
    const happenedAt = new Date(receivedAt.getTime() - draft.secondsAgo * 1000 * clock.speed)
    const mark = { key, nightId: ground.nightId, stationId, kind, payload, by, receivedAt, happenedAt }
    return { mark: kept ?? marks.keep(mark) }
  }

  return {
    record(nightId, drafts, by) {
      nightOf(nightId)
      const stationIds = new Set(nights.everyStation(nightId).map(({ id }) => id))
      const ground = { marks, tours, nightId, stationIds, knowsObject }
      const receivedAt = clock.now()
      return recorded(marks.together(() => drafts.map((draft) => keep(draft, ground, by, receivedAt))))
    },
    since(nightId, seq) {
      nightOf(nightId)
      return marks.since(nightId, seq)
    },
    field(nightId) {
      const night = nightOf(nightId)
      return foldField({ night, tour: programme(nightId) ?? null, marks: log.all(nightId), at: clock.now() })
    },
    version(nightId) {
      nightOf(nightId)
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
