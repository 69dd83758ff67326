import type { WishStore } from '../../db/wishes.ts'
import { digestOf } from '../tours/digest.ts'
import type { Night } from '../tours/night.ts'
import type { ShowObject } from '../tours/target.ts'
import type { ThinCloud } from '../tours/thin-cloud.ts'
import type { Jobs } from './jobs.ts'
import { keptAnswers } from './kept-answers.ts'
import { seedOf } from './tour-digest.ts'

export interface ThinNeeds {
  readonly findNight: (id: string) => Night
  readonly wishes: Pick<WishStore, 'all'>
  readonly jobs: Pick<Jobs, 'run'>
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
}

/** There is little to choose from, so that few steps find the best of it. */
const STEPS = 60_000
const KEPT = 8

/** What the row would show through thin cloud: asked of the worker once for each state of its night. */
export function thinCloudAsker({ findNight, wishes: kept, jobs, own: ownNow }: ThinNeeds) {
  const answers = keptAnswers<ThinCloud>(KEPT)
  return async (nightId: string): Promise<ThinCloud> => {
    const { state: _state, ...night } = findNight(nightId)
    const [own, wishes] = [ownNow(), kept.all(nightId)]
    const asked = {
      night: { ...night, state: 'planned' as const },
      own,
      wishes,
      seed: seedOf(findNight(nightId)),
      steps: STEPS,
    }
    return answers(digestOf(JSON.stringify(asked)), () => jobs.run<'thin-cloud'>({ kind: 'thin-cloud', ...asked }))
  }
}
