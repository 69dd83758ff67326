import type { WishStore } from '../../db/wishes.ts'
import { digestOf } from '../tours/digest.ts'
import type { Missing } from '../tours/missing.ts'
import type { Night } from '../tours/night.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Desk } from './desk.ts'
import type { Jobs } from './jobs.ts'
import { keptAnswers } from './kept-answers.ts'

interface Needs {
  readonly findNight: (id: string) => Night
  readonly jobs: Jobs
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
  readonly wishes: Pick<WishStore, 'all'>
}

const KEPT = 8

/** Why showpieces are missing from programmes: asked of the worker once for each programme and state of its night, the eight last used kept. */
export function missingDesk({ findNight, jobs, own: ownNow, wishes: kept }: Needs): Desk['missing'] {
  const answers = keptAnswers<readonly Missing[]>(KEPT)
  return (tour) => {
    const [night, own, wishes] = [findNight(tour.nightId), ownNow(), kept.all(tour.nightId)]
    const key = digestOf(JSON.stringify([tour.id, night, own, wishes]))
    return answers(key, () => jobs.run<'missing'>({ kind: 'missing', night, own, tour, wishes }))
  }
}
