import { notFound } from '../errors.ts'
import { clamp } from '../sky/angles.ts'
import type { Check } from '../tours/check.ts'
import { digestOf } from '../tours/digest.ts'
import { nightHours } from '../tours/hours.ts'
import type { MarkKind } from '../tours/mark.ts'
import type { Night } from '../tours/night.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Tour } from '../tours/tour.ts'
import type { Desk } from './desk.ts'
import type { Moment } from './job-kinds.ts'
import type { Jobs } from './jobs.ts'
import { keptAnswers } from './kept-answers.ts'
import type { MarkLog } from './mark-log.ts'

const HALF_HOUR_MS = 1_800_000
const KEPT = 8
/** The marks that say what can be seen and where; undos among them. */
const TELLING: ReadonlySet<MarkKind> = new Set(['clouds', 'station', 'undo'])

interface Needs {
  readonly findNight: (id: string) => Night
  readonly programme: (nightId: string) => Tour | undefined
  readonly log: MarkLog
  readonly jobs: Jobs
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
}

/** The half-hour check, now and for the whole evening; of what every phone of the row asks for, the worker is asked once. */
export function checkDesk({ findNight, programme, log, jobs, own }: Needs): Desk['checks'] {
  const kept = keptAnswers<Check[]>(KEPT)

  function run(nightId: string, momentsOf: (night: Night) => readonly Moment[]) {
    const night = findNight(nightId)
    const tour = programme(nightId)
    if (!tour) throw notFound('tour')
    const marks = log.all(nightId).filter(({ kind }) => TELLING.has(kind))
    const [things, moments] = [own(), momentsOf(night)]
    const name = digestOf(JSON.stringify([tour.id, night, things, marks, moments]))
    return kept(name, () => jobs.run<'checks'>({ kind: 'checks', night, own: things, tour, marks, moments }))
  }

  return {
    async at(nightId, at) {
      const [check] = await run(nightId, (night) => [momentOf(night, nearEvening(night, at))])
      if (!check) throw new Error('The check gave no answer')
      return check
    },
    evening: async (nightId) => run(nightId, (night) => halfHours(night).map((at) => momentOf(night, at))),
  }
}

/** The instant, or the nearest one for which the evening is reckoned: half an hour either side of the public hours. A far one would keep the only worker busy for minutes. */
export function nearEvening(night: Night, at: Date): Date {
  const { opensAt, closesAt } = nightHours(night)
  return new Date(clamp(at.getTime(), opensAt.getTime() - HALF_HOUR_MS, closesAt.getTime() + HALF_HOUR_MS))
}

/** A check and the one half an hour before it; the first of the evening has none before it. */
function momentOf(night: Night, at: Date): Moment {
  const previousAt = new Date(at.getTime() - HALF_HOUR_MS)
  return { at, previousAt: previousAt < nightHours(night).opensAt ? null : previousAt }
}

/** Opening, then every full and half hour of UTC (and of every zone but the few at a quarter) before closing. */
function halfHours(night: Night): readonly Date[] {
  const { opensAt, closesAt } = nightHours(night)
  const moments = [opensAt]
  let ms = (Math.floor(opensAt.getTime() / HALF_HOUR_MS) + 1) * HALF_HOUR_MS
  for (; ms < closesAt.getTime(); ms += HALF_HOUR_MS) moments.push(new Date(ms))
  return moments
}
