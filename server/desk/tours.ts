import type { TourStore } from '../../db/tours.ts'
import type { WishStore } from '../../db/wishes.ts'
import type { Clock } from '../clock.ts'
import { Fault, notFound } from '../errors.ts'
import { AGAIN_STEPS, DEFAULT_STEPS } from '../tours/build.ts'
import type { Mark } from '../tours/mark.ts'
import { newsOf } from '../tours/news.ts'
import type { Night } from '../tours/night.ts'
import { currentVersion, waitingVersion } from '../tours/programme.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Tour } from '../tours/tour.ts'
import type { Wish } from '../tours/wish.ts'
import type { Desk } from './desk.ts'
import { newId } from './ids.ts'
import type { JobKinds } from './job-kinds.ts'
import type { Jobs } from './jobs.ts'
import type { MarkLog } from './mark-log.ts'
import { digestOf, seedOf } from './tour-digest.ts'
import { againOf, isUnderWay } from './under-way.ts'

export interface TourNeeds {
  readonly tours: TourStore
  readonly wishes: Pick<WishStore, 'all'>
  readonly log: MarkLog
  readonly findNight: (id: string) => Night
  readonly jobs: Jobs
  readonly clock: Clock
  readonly catalogueDigest: string
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
  /** Rounds in which a limit is proved for each new programme; 0 for none. */
  readonly proofRounds: number
}

/** A programme of a night that is not kept yet; it goes with the night into one commit. */
export interface FirstTour {
  keep(): void
}

/** Builds the programme of a night before the night itself is kept. */
export const firstTours =
  (needs: TourNeeds) =>
  async (night: Night): Promise<FirstTour> => {
    const built = await reckon(needs, night, {})
    return { keep: () => keepTour(needs, built) }
  }

/** Building and keeping programmes. */
export function tourDesk(needs: TourNeeds): Desk['tours'] {
  const { tours, wishes, log, findNight, clock, catalogueDigest, own } = needs

  function digestNow(nightId: string, acts: readonly Mark[]): string {
    const night = findNight(nightId)
    return digestOf(catalogueDigest, night, own(), wishes.all(nightId), newsOf(night, acts, clock.now()))
  }

  return {
    build: async (nightId, options = {}) => build(needs, findNight(nightId), options),
    current: (nightId) => programmeOf(tours, log, findNight(nightId).id),
    version(nightId, version) {
      const heading = tours.versions(findNight(nightId).id).find((found) => found.version === version)
      if (!heading) throw notFound('tour')
      return findTour(tours, heading.id)
    },
    find: (id) => findTour(tours, id),
    versions(nightId) {
      findNight(nightId)
      return tours.versions(nightId)
    },
    stateOf({ id, nightId, inputsDigest }) {
      const [versions, acts] = [tours.versions(nightId), log.all(nightId)]
      return {
        isCurrent: currentVersion(versions, acts)?.id === id,
        isStale: inputsDigest !== digestNow(nightId, acts),
        waiting: waitingVersion(versions, acts) ?? null,
      }
    },
  }
}

/** Builds a programme from the night as it is now, and keeps it as the next version. */
async function build(needs: TourNeeds, night: Night, options: TourOptions): Promise<Tour> {
  const reckoned = await reckon(needs, night, options)
  keepTour(needs, reckoned)
  return findTour(needs.tours, reckoned.tour.id)
}

interface TourOptions {
  readonly seed?: number
  readonly steps?: number
}

interface Reckoned {
  readonly tour: Tour
  readonly asked: JobKinds['tour']['asked']
}

/** Keeps what was reckoned, and goes on proving how good it is. */
function keepTour(needs: TourNeeds, { tour, asked }: Reckoned): void {
  needs.tours.add(tour)
  proveInBackground(needs, tour.id, asked)
}

/** The next version of the programme of a night as it is now. */
async function reckon(needs: TourNeeds, night: Night, options: TourOptions): Promise<Reckoned> {
  const { tours, log, jobs, clock, catalogueDigest } = needs
  const own = needs.own()
  const wishes = await sureWishes(needs.wishes.all(night.id), jobs, night, own)
  const madeAt = clock.now()
  const [current, acts] = [programmeOf(tours, log, night.id), log.all(night.id)]
  const again = againOf(night, current, acts, madeAt)
  const { seed = seedOf(night), steps = again ? AGAIN_STEPS : DEFAULT_STEPS } = options
  const asked = { night, own, wishes, seed, steps, again }
  const inputsDigest = digestOf(catalogueDigest, night, own, wishes, newsOf(night, acts, madeAt))
  const built = await jobs.run<'tour'>({ kind: 'tour', ...asked })
  const before = tours.latest(night.id)
  refuseEmpty(built, before, madeAt)
  const made = {
    id: newId(),
    nightId: night.id,
    version: (before?.version ?? 0) + 1,
    madeAt,
    seed,
    steps,
    inputsDigest,
  }
  const waits = current !== undefined && isUnderWay(night, current, log.all(night.id), madeAt)
  const tookOverAtSeq = waits ? null : (log.all(night.id).at(-1)?.seq ?? 0)
  return { tour: { ...built, ...made, why: whyOf(before, inputsDigest), tookOverAtSeq }, asked }
}

/** Nobody waits for it; a limit that comes after the service has been asked to stop is lost. */
function proveInBackground(
  { tours, jobs, clock, proofRounds }: TourNeeds,
  id: string,
  asked: JobKinds['tour']['asked'],
): void {
  if (proofRounds === 0) return
  jobs
    .run<'proof'>({ kind: 'proof', ...asked, rounds: proofRounds })
    .then((bound) => bound !== null && tours.prove(id, clock.now(), bound))
    .catch((error: unknown) => {
      if (!(error instanceof Fault)) console.error('The proof of a programme failed:', error)
    })
}

function whyOf(before: Tour | undefined, inputsDigest: string): Tour['why'] {
  if (!before) return 'first'
  return before.inputsDigest === inputsDigest ? 'asked' : 'changed'
}

function findTour(tours: TourNeeds['tours'], id: string): Tour {
  const tour = tours.find(id)
  if (!tour) throw notFound('tour')
  return tour
}

/** The wishes themselves; a Fault that says why when one of them cannot be met, so that the programme of before stays. */
async function sureWishes(
  wishes: readonly Wish[],
  jobs: Jobs,
  night: Night,
  own: readonly ShowObject[],
): Promise<readonly Wish[]> {
  if (wishes.length === 0) return wishes
  const conflicts = await jobs.run<'wish-conflicts'>({ kind: 'wish-conflicts', night, own, wishes })
  if (conflicts.length === 0) return wishes
  const problems = conflicts.flatMap(({ wishId, remarks }) =>
    remarks.map(({ code, values = {} }) => ({ field: `wishes.${wishId}`, key: code, values })),
  )
  throw new Fault('conflict', 'fault.wishes', {}, problems)
}

/** A programme with nothing ahead never takes the place of one that has something: no telescope, or the Sun up all the time. */
function refuseEmpty({ stops, notices }: Pick<Tour, 'stops' | 'notices'>, before: Tour | undefined, at: Date): void {
  const [why] = notices
  // What is on now ends with the minute.
  const isEmpty = stops.every(({ endsAt }) => endsAt.getTime() < at.getTime() + 60_000)
  if (isEmpty && before && before.stops.length > 0 && why) throw new Fault('conflict', why.code, why.values)
}

/** The programme that the row goes by; undefined before the first. */
export function programmeOf(tours: TourStore, log: MarkLog, nightId: string): Tour | undefined {
  const current = currentVersion(tours.versions(nightId), log.all(nightId))
  return current && tours.find(current.id)
}
