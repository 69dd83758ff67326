import type { Clock } from '../clock.ts'
import { invalid, notFound } from '../errors.ts'
import { foldField } from '../tours/fold.ts'
import type { Mark, MarkDraft } from '../tours/mark.ts'
import type { Tour } from '../tours/tour.ts'
import type { Desk } from './desk.ts'
import { epochOf } from './epoch.ts'
import type { MarkLog } from './mark-log.ts'
import { draftProblems, inside, type MarkGround, markProblems, reuseProblems } from './mark-problems.ts'
import type { Stores } from './stores.ts'

type Needs = Pick<Stores, 'marks' | 'nights' | 'tours' | 'settings'> & {
  readonly clock: Clock
  readonly log: MarkLog
  readonly knowsObject: (key: string) => boolean
  readonly programme: (nightId: string) => Tour | undefined
}

/** Keeping the night's acts, and the state they fold into. */
export function markDesk({ marks, nights, tours, settings, clock, log, knowsObject, programme }: Needs): Desk['marks'] {
  const epoch = epochOf(settings)

  function nightOf(nightId: string) {
    const night = nights.find(nightId)
    if (!night) throw notFound('night')
    return night
  }

  function keep(draft: MarkDraft, place: number, ground: MarkGround, by: string, receivedAt: Date): Mark {
    const { key, kind, stationId, payload } = draft
    const kept = marks.find(key)
    const problems = kept ? reuseProblems(kept, draft, ground.nightId) : markProblems(draft, ground)
    if (problems.length > 0) throw invalid(problems.map((problem) => inside(String(place), problem)))
    const happenedAt = new Date(receivedAt.getTime() - draft.secondsAgo * 1000 * clock.speed)
    return kept ?? marks.keep({ key, nightId: ground.nightId, stationId, kind, payload, by, receivedAt, happenedAt })
  }

  return {
    record(nightId, drafts, by) {
      nightOf(nightId)
      const problems = draftProblems(drafts)
      if (problems.length > 0) throw invalid(problems)
      const stationIds = new Set(nights.everyStation(nightId).map(({ id }) => id))
      const ground = { marks, tours, nightId, stationIds, knowsObject }
      const receivedAt = clock.now()
      return marks.together(() => drafts.map((draft, place) => keep(draft, place, ground, by, receivedAt)))
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
