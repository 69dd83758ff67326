import { digestOf } from '../tours/digest.ts'
import type { Missing } from '../tours/missing.ts'
import type { Night } from '../tours/night.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Desk } from './desk.ts'
import type { Jobs } from './jobs.ts'

interface Needs {
  readonly findNight: (id: string) => Night
  readonly jobs: Jobs
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
}

const KEPT = 8

/** Why showpieces are missing from programmes: asked of the worker once for each programme and state of its night, the eight newest kept. */
export function missingDesk({ findNight, jobs, own: ownNow }: Needs): Desk['missing'] {
  const answers = new Map<string, Promise<readonly Missing[]>>()
  return (tour) => {
    const [night, own] = [findNight(tour.nightId), ownNow()]
    const key = digestOf(JSON.stringify([tour.id, night, own]))
    const kept = answers.get(key)
    if (kept) return kept
    const answer = jobs.run<'missing'>({ kind: 'missing', night, own, tour })
    answers.set(key, answer)
    answer.catch(() => answers.delete(key))
    for (const oldest of answers.keys()) if (answers.size > KEPT) answers.delete(oldest)
    return answer
  }
}
