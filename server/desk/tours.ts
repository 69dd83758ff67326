import { createHash } from 'node:crypto'
import type { TourStore } from '../../db/tours.ts'
import type { Clock } from '../clock.ts'
import { notFound } from '../errors.ts'
import { DEFAULT_STEPS } from '../tours/build.ts'
import type { Mark } from '../tours/mark.ts'
import type { Night } from '../tours/night.ts'
import { currentVersion, hasBegun, waitingVersion } from '../tours/programme.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Tour } from '../tours/tour.ts'
import type { Desk } from './desk.ts'
import { newId } from './ids.ts'
import type { Jobs } from './jobs.ts'
import type { MarkLog } from './mark-log.ts'

interface Needs {
  readonly tours: TourStore
  readonly log: MarkLog
  readonly findNight: (id: string) => Night
  readonly jobs: Jobs
  readonly clock: Clock
  readonly catalogueDigest: string
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
}

/** Building and keeping programmes. */
export function tourDesk({ tours, log, findNight, jobs, clock, catalogueDigest, own: ownNow }: Needs): Desk['tours'] {
  const whyOf = (before: Tour | undefined, inputsDigest: string): Tour['why'] => {
    if (!before) return 'first'
    return before.inputsDigest === inputsDigest ? 'asked' : 'changed'
  }

  return {
    async build(nightId, { seed: askedSeed, steps = DEFAULT_STEPS } = {}) {
      const night = findNight(nightId)
      const seed = askedSeed ?? seedOf(night)
      const own = ownNow()
      const inputsDigest = digestOf(catalogueDigest, night, own)
      const built = await jobs.run<'tour'>({ kind: 'tour', night, own, seed, steps })
      const before = tours.latest(nightId)
      const id = newId()
      const version = (before?.version ?? 0) + 1
      const why = whyOf(before, inputsDigest)
      const tookOverAtSeq = takeOverSeq(before, log.all(nightId))
      tours.add({ ...built, id, nightId, version, madeAt: clock.now(), why, seed, steps, inputsDigest, tookOverAtSeq })
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
        isStale: inputsDigest !== digestOf(catalogueDigest, findNight(nightId), ownNow()),
        waiting: waitingVersion(versions, acts) ?? null,
      }
    },
  }
}

function findTour(tours: Needs['tours'], id: string): Tour {
  const tour = tours.find(id)
  if (!tour) throw notFound('tour')
  return tour
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
): string {
  const stations = night.stations.map(({ operator: _operator, ...station }) => station)
  const { name: _name, ...site } = night.site
  return sha256(JSON.stringify([catalogueDigest, { ...night, site, stations }, ...own], inOrder))
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
