import { besideStations } from '../tours/beside.ts'
import type { BesideHalf } from '../tours/beside-lines.ts'
import { digestOf } from '../tours/digest.ts'
import type { Night } from '../tours/night.ts'
import type { OwnThing } from '../tours/own-object.ts'
import { passesIn } from '../tours/own-pass.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Desk } from './desk.ts'
import type { Jobs } from './jobs.ts'
import { keptAnswers } from './kept-answers.ts'

interface Needs {
  readonly findNight: (id: string) => Night
  readonly jobs: Jobs
  /** What of the catalogue is on the list beside the telescopes. */
  readonly extra: readonly ShowObject[]
  /** What the host entered for telescopes, and all that the host entered. */
  readonly own: () => readonly ShowObject[]
  readonly things: () => readonly OwnThing[]
}

const KEPT = 8

/** What stands beside the telescopes: asked of the worker once for each programme and state of its night, the eight last used kept. */
export function besideDesk({ findNight, jobs, extra, own: ownNow, things }: Needs): Desk['beside'] {
  const answers = keptAnswers<readonly BesideHalf[]>(KEPT)
  return async (nightId, tour) => {
    const night = findNight(nightId)
    if (besideStations(night).length === 0) return []
    const [own, passes, stops] = [ownNow(), passesIn(night, things()), tour?.stops ?? []]
    const key = digestOf(JSON.stringify([night, own, passes, stops]))
    return answers(key, () => jobs.run<'beside'>({ kind: 'beside', night, own, extra, passes, stops }))
  }
}
