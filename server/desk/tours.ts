import { createHash } from 'node:crypto'
import type { TourStore } from '../../db/tours.ts'
import type { Clock } from '../clock.ts'
import { notFound } from '../errors.ts'
import { DEFAULT_STEPS } from '../tours/build.ts'
import type { Night } from '../tours/night.ts'
import type { Tour } from '../tours/tour.ts'
import type { Desk } from './desk.ts'
import { newId } from './ids.ts'
import type { Jobs } from './jobs.ts'
import type { MarkLog } from './mark-log.ts'

interface Needs {
  readonly tours: TourStore
  readonly findNight: (id: string) => Night
  readonly jobs: Jobs
  readonly clock: Clock
  readonly catalogueDigest: string
}

/** Building and keeping programmes. */
export function tourDesk({ tours, findNight, jobs, clock, catalogueDigest }: Needs): Desk['tours'] {
  const whyOf = (before: Tour | undefined, inputsDigest: string): Tour['why'] => {
    if (!before) return 'first'
    return before.inputsDigest === inputsDigest ? 'asked' : 'changed'
  }

  return {
    async build(nightId, { seed: askedSeed, steps = DEFAULT_STEPS } = {}) {
      const night = findNight(nightId)
      const seed = askedSeed ?? seedOf(night)
      const inputsDigest = sha256(JSON.stringify([catalogueDigest, night]))
      const built = await jobs.run<'tour'>({ kind: 'tour', night, seed, steps })
      const before = tours.latest(nightId)
      const id = newId()
      const version = (before?.version ?? 0) + 1
      const why = whyOf(before, inputsDigest)
      tours.add({ ...built, id, nightId, version, madeAt: clock.now(), why, seed, steps, inputsDigest })
      return findTour(tours, id)
    },
    latest(nightId) {
      findNight(nightId)
      return tours.latest(nightId)
    },
    find: (id) => findTour(tours, id),
    versions(nightId) {
      findNight(nightId)
      return tours.versions(nightId)
    },
  }
}

function findTour(tours: Needs['tours'], id: string): Tour {
  const tour = tours.find(id)
  if (!tour) throw notFound('tour')
  return tour
}

/** The programme that the row goes by: the one accepted last, else the newest; undefined before the first. */
export function programmeOf(tours: TourStore, log: MarkLog, nightId: string): Tour | undefined {
  const acts = log.all(nightId)
  const undone = new Set(acts.filter(({ kind }) => kind === 'undo').map(({ payload }) => payload.markKey))
  const accepted = acts.findLast(({ kind, key }) => kind === 'accepted' && !undone.has(key))
  const tourId = accepted?.payload.tourId
  return (typeof tourId === 'string' ? tours.find(tourId) : undefined) ?? tours.latest(nightId)
}

/** The seed of a night, the same on every laptop: 31 bits of a digest of its date, title and place. */
export const seedOf = ({ date, title, site }: Night): number =>
  Number.parseInt(sha256(JSON.stringify([date, title, site.latitudeDeg, site.longitudeDeg])).slice(0, 8), 16) >>> 1

const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex')
