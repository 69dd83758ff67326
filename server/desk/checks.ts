import { notFound } from '../errors.ts'
import { clamp } from '../sky/angles.ts'
import { nightHours } from '../tours/hours.ts'
import type { Night } from '../tours/night.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Tour } from '../tours/tour.ts'
import type { Desk } from './desk.ts'
import type { Moment } from './job-kinds.ts'
import type { Jobs } from './jobs.ts'

const HALF_HOUR_MS = 1_800_000

interface Needs {
  readonly findNight: (id: string) => Night
  readonly programme: (nightId: string) => Tour | undefined
  readonly jobs: Jobs
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
}

/** The half-hour check, now and for the whole evening. */
export function checkDesk({ findNight, programme, jobs, own }: Needs): Desk['checks'] {
  function run(nightId: string, moments: (night: Night) => readonly Moment[]) {
    const night = findNight(nightId)
    const tour = programme(nightId)
    if (!tour) throw notFound('tour')
    return jobs.run<'checks'>({ kind: 'checks', night, own: own(), tour, moments: moments(night) })
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
export function halfHours(night: Night): readonly Date[] {
  const { opensAt, closesAt } = nightHours(night)
  const moments = [opensAt]
  let ms = (Math.floor(opensAt.getTime() / HALF_HOUR_MS) + 1) * HALF_HOUR_MS
  for (; ms < closesAt.getTime(); ms += HALF_HOUR_MS) moments.push(new Date(ms))
  return moments
}
