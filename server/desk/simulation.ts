import { notFound } from '../errors.ts'
import { digestOf } from '../tours/digest.ts'
import type { Night } from '../tours/night.ts'
import { reckonedLine } from '../tours/simulation-reckoned.ts'
import type { LineReport } from '../tours/simulation-report.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Tour } from '../tours/tour.ts'
import type { Desk } from './desk.ts'
import type { Jobs } from './jobs.ts'
import { keptAnswers } from './kept-answers.ts'

interface Needs {
  readonly findNight: (id: string) => Night
  readonly programme: (nightId: string) => Tour | undefined
  readonly jobs: Jobs
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
}

const KEPT = 8

/** The line: as arithmetic says, and as people who come, choose and wait make it. Played once for each programme and state of its night, the eight last used kept. */
export function lineDesk({ findNight, programme, jobs, own: ownNow }: Needs): Desk['line'] {
  const played = keptAnswers<LineReport>(KEPT)

  function play(night: Night, { id, stops, seed }: Tour): Promise<LineReport> {
    const own = ownNow()
    const key = digestOf(JSON.stringify([id, night, own]))
    return played(key, () => jobs.run<'simulation'>({ kind: 'simulation', night, own, stops, seed }))
  }

  return async (nightId) => {
    const night = findNight(nightId)
    const tour = programme(nightId)
    if (!tour) throw notFound('tour')
    const { version, seed, stops } = tour
    return { version, seed, reckoned: reckonedLine(night, stops), simulated: await play(night, tour) }
  }
}
