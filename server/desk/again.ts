import { isDeepStrictEqual } from 'node:util'
import type { TourStore } from '../../db/tours.ts'
import type { Clock } from '../clock.ts'
import { invalid, notFound, type Problem, refuse } from '../errors.ts'
import { type Known, type Told, toldMarks, toldProblems } from '../tours/again-marks.ts'
import { changesOf, type StationChanges } from '../tours/changes.ts'
import type { FieldState } from '../tours/field.ts'
import { standing } from '../tours/fold.ts'
import type { MarkDraft, RecordedMarks } from '../tours/mark.ts'
import { type News, newsOf } from '../tours/news.ts'
import type { Night, NightDraft } from '../tours/night.ts'
import { withHours } from '../tours/night-draft.ts'
import { nightProblems } from '../tours/problems.ts'
import { currentVersion, hasBegun, waitingVersion } from '../tours/programme.ts'
import type { Tour } from '../tours/tour.ts'
import type { Desk } from './desk.ts'
import type { MarkLog } from './mark-log.ts'

/** A night as it stands now, and what a programme that waits would change of it. */
export interface AgainState {
  readonly at: Date
  readonly news: News
  readonly field: FieldState
  /** The programme that the row goes by. */
  readonly tour: Tour
  /** True once something is shown: a programme made now waits for the host. */
  readonly hasBegun: boolean
  readonly waiting: Tour | null
  /** The next full minute, at which what is turned to at once begins. */
  readonly fromAt: Date
  /** From then on; none while no programme waits. */
  readonly changes: readonly StationChanges[]
}

export interface AgainDesk {
  /** Needs a programme. */
  state(nightId: string): AgainState
  /** Keeps what differs from what was known, all of it or nothing: marks, and other hours as a change of the night. */
  tell(nightId: string, told: Told, by: string): void
}

interface Needs {
  readonly tours: Pick<TourStore, 'versions' | 'find'>
  readonly nights: Desk['nights']
  readonly marks: Desk['marks']
  readonly log: MarkLog
  readonly clock: Clock
  readonly together: <Result>(work: () => Result) => Result
}

const MINUTE_MS = 60_000

/** What the host must know and say of a night under way to have its programme made again. */
export const againDesk = (needs: Needs): AgainDesk => ({
  state: (nightId) => stateOf(needs, needs.nights.find(nightId)),
  tell(nightId, told, by) {
    const { nights, marks, together } = needs
    const night = nights.find(nightId)
    const known = knownOf(needs, night)
    const drafts = toldMarks(told, known)
    const moved = movedNight(night, told)
    const problems = [
      ...toldProblems(told, known),
      ...(moved ? nightProblems(moved, known.at, night.site.zone) : []),
      ...keyProblems(needs, nightId, drafts),
    ]
    refuse(problems)
    together(() => {
      if (moved) nights.change(nightId, moved)
      if (drafts.length > 0) refuseNone(marks.record(nightId, drafts, by, 'host-phone'))
    })
  },
})

function stateOf({ tours, marks, log, clock }: Needs, night: Night): AgainState {
  const [versions, acts, at] = [tours.versions(night.id), log.all(night.id), clock.now()]
  const [current, newer] = [currentVersion(versions, acts), waitingVersion(versions, acts)]
  const tour = current && tours.find(current.id)
  if (!tour) throw notFound('tour')
  const waiting = (newer && tours.find(newer.id)) ?? null
  const fromAt = new Date(Math.ceil(at.getTime() / MINUTE_MS) * MINUTE_MS)
  return {
    at,
    news: newsOf(night, acts, at),
    field: marks.field(night.id),
    tour,
    hasBegun: hasBegun(tour, acts, at),
    waiting,
    fromAt,
    changes: waiting ? changesOf(tour.stops, waiting.stops, fromAt) : [],
  }
}

function knownOf({ marks, log, clock }: Needs, night: Night): Known {
  const [acts, at] = [log.all(night.id), clock.now()]
  const { adultsIn, childrenIn } = marks.field(night.id)
  const counts = standing(acts).filter(({ kind }) => kind === 'counted')
  const countedAt = counts.map(({ happenedAt }) => happenedAt).sort((a, b) => b.getTime() - a.getTime())[0] ?? null
  return { stations: night.stations, news: newsOf(night, acts, at), adultsIn, childrenIn, countedAt, at }
}

/** The night with the hours that were told; null when they are as before. */
const movedNight = (night: Night, { opens, closes }: Told): NightDraft | null =>
  opens === night.opens && closes === night.closes ? null : withHours(night, { opens, closes })

/** A form that comes back with something else in it, as after a step back in the browser, would be lost behind its own keys. */
function keyProblems({ log }: Needs, nightId: string, drafts: readonly MarkDraft[]): Problem[] {
  const isOther = (draft: MarkDraft) =>
    log.all(nightId).some(({ key, payload }) => key === draft.key && !isDeepStrictEqual(payload, draft.payload))
  return drafts.some(isOther) ? [{ field: 'key', key: 'again.sent-before' }] : []
}

function refuseNone({ refused }: RecordedMarks): void {
  if (refused.length > 0) throw invalid(refused.flatMap(({ problems }) => problems))
}
