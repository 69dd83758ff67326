import { createHash } from 'node:crypto'
import type { TourStore } from '../../db/tours.ts'
import type { WishStore } from '../../db/wishes.ts'
import type { Clock } from '../clock.ts'
import { Fault, notFound } from '../errors.ts'
import { DEFAULT_STEPS } from '../tours/build.ts'
import type { Mark } from '../tours/mark.ts'
import type { Night } from '../tours/night.ts'
import { currentVersion, hasBegun, waitingVersion } from '../tours/programme.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Tour } from '../tours/tour.ts'
import type { Wish } from '../tours/wish.ts'
import type { Desk } from './desk.ts'
import { newId } from './ids.ts'
import type { JobKinds } from './job-kinds.ts'
import type { Jobs } from './jobs.ts'
import type { MarkLog } from './mark-log.ts'

interface Needs {
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

/** Building and keeping programmes. */
export function tourDesk({
  tours,
  wishes: kept,
  log,
  findNight,
  jobs,
  clock,
  catalogueDigest,
  own: ownNow,
  proofRounds,
}: Needs): Desk['tours'] {
  /** Nobody waits for it; a limit that comes after the service has been asked to stop is lost. */
  function proveInBackground(id: string, asked: JobKinds['tour']['asked']): void {
    if (proofRounds === 0) return
    jobs
      .run<'proof'>({ kind: 'proof', ...asked, rounds: proofRounds })
      .then((bound) => bound !== null && tours.prove(id, clock.now(), bound))
      .catch((error: unknown) => {
        if (!(error instanceof Fault)) console.error('The proof of a programme failed:', error)
      })
  }

  return {
    async build(nightId, { seed: askedSeed, steps = DEFAULT_STEPS } = {}) {
      const night = findNight(nightId)
      const seed = askedSeed ?? seedOf(night)
      const own = ownNow()
      const wishes = await sureWishes(kept.all(nightId), jobs, night, own)
      const inputsDigest = digestOf(catalogueDigest, night, own, wishes)
      const built = await jobs.run<'tour'>({ kind: 'tour', night, own, wishes, seed, steps })
      const before = tours.latest(nightId)
      refuseEmpty(built, before)
      const id = newId()
      const version = (before?.version ?? 0) + 1
      const why = whyOf(before, inputsDigest)
      const tookOverAtSeq = takeOverSeq(before, log.all(nightId))
      tours.add({ ...built, id, nightId, version, madeAt: clock.now(), why, seed, steps, inputsDigest, tookOverAtSeq })
      proveInBackground(id, { night, own, wishes, seed, steps })
      return findTour(tours, id)
    },
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
        isStale: inputsDigest !== digestOf(catalogueDigest, findNight(nightId), ownNow(), kept.all(nightId)),
        waiting: waitingVersion(versions, acts) ?? null,
      }
    },
  }
}

function whyOf(before: Tour | undefined, inputsDigest: string): Tour['why'] {
  if (!before) return 'first'
  return before.inputsDigest === inputsDigest ? 'asked' : 'changed'
}

function findTour(tours: Needs['tours'], id: string): Tour {
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

/** A programme without a stop never takes the place of one that has some: no telescope, or the Sun up all the time. */
function refuseEmpty({ stops, notices }: Pick<Tour, 'stops' | 'notices'>, before: Tour | undefined): void {
  const [why] = notices
  if (stops.length === 0 && before && before.stops.length > 0 && why) throw new Fault('conflict', why.code, why.values)
}

/** The programme that the row goes by; undefined before the first. */
export function programmeOf(tours: TourStore, log: MarkLog, nightId: string): Tour | undefined {
  const current = currentVersion(tours.versions(nightId), log.all(nightId))
  return current && tours.find(current.id)
}

/** Where among the marks a new version takes over: at once before the night begins or when it is the first, else null. */
const takeOverSeq = (before: Tour | undefined, acts: readonly Mark[]): number | null =>
  before && hasBegun(acts) ? null : (acts.at(-1)?.seq ?? 0)

/** Stands for all that goes into a programme. Title, state, place name and operators are left out: they decide nothing. */
function digestOf(
  catalogueDigest: string,
  { title: _title, state: _state, ...night }: Night,
  own: readonly ShowObject[],
  wishes: readonly Wish[],
): string {
  const stations = night.stations.map(({ operator: _operator, ...station }) => station)
  const { name: _name, ...site } = night.site
  const wished = wishes.map(({ id: _id, ...wish }) => wish)
  return sha256(JSON.stringify([catalogueDigest, { ...night, site, stations, wished }, ...own], inOrder))
}

/** Writes the fields of every object in the order of their names, so that equal inputs have equal texts. */
const inOrder = (_key: string, value: unknown): unknown =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
    : value

/** The seed of a night, the same on every laptop: 31 bits of a digest of its date, title and place. */
export const seedOf = ({ date, title, site }: Night): number =>
  Number.parseInt(sha256(JSON.stringify([date, title, site.latitudeDeg, site.longitudeDeg])).slice(0, 8), 16) >>> 1

const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex')
