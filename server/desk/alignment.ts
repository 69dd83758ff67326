import type { ObjectStore } from '../../db/objects.ts'
import type { SkyEvening } from '../sky/evening.ts'
import type { AlignmentPair } from '../tours/alignment.ts'
import type { BrightStar } from '../tours/alignment-lights.ts'
import type { AlignmentOutlook } from '../tours/alignment-outlook.ts'
import { RIVAL_MAG } from '../tours/alignment-rivals.ts'
import { FAINTEST_MAG } from '../tours/alignment-stars.ts'
import { eveningDate, eveningSpan, nightHours } from '../tours/hours.ts'
import type { Night } from '../tours/night.ts'
import { type SetUpTime, setUpTimes } from '../tours/set-up-times.ts'
import { placeOf } from '../tours/site.ts'
import { type SunTonight, sunTonight } from '../tours/sun-tonight.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Tour } from '../tours/tour.ts'
import type { Desk } from './desk.ts'
import type { Jobs } from './jobs.ts'

/** The evening from the arrival on, and the stars to align on in it. */
export interface SetUp {
  readonly sun: SunTonight
  readonly times: readonly SetUpTime[]
  /** At the time of aligning; none where no two stars can be centred then. */
  readonly pairs: readonly AlignmentPair[]
}

/** Stars to set the driven mounts of a night up on. */
export interface AlignmentDesk {
  /** At most three pairs at an instant, best first; none by day. */
  pairs(nightId: string, at: Date): Promise<readonly AlignmentPair[]>
  /** What stands in the way of a pair at an instant, and the first instant from it on, before the next noon, with one. */
  outlook(nightId: string, at: Date): Promise<AlignmentOutlook>
  setUp(nightId: string): Promise<SetUp>
}

export interface AlignmentNeeds {
  readonly findNight: (id: string) => Night
  readonly programme: (nightId: string) => Tour | undefined
  readonly sky: Pick<Desk['sky'], 'evening'>
  readonly jobs: Jobs
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
}

/** Where the Sun does not set, stars are looked for from so long before the opening. */
const BEFORE_OPENING_MS = 3 * 3_600_000

export function alignmentDesk({ findNight, programme, sky, jobs, own }: AlignmentNeeds): AlignmentDesk {
  const pairs = async (night: Night, at: Date) => {
    const stops = programme(night.id)?.stops ?? []
    return jobs.run<'alignment'>({ kind: 'alignment', night, own: own(), stops, at })
  }
  const outlook = async (night: Night, at: Date) =>
    jobs.run<'alignment-outlook'>({ kind: 'alignment-outlook', night, at, untilAt: eveningSpan(night).untilAt })

  return {
    pairs: async (nightId, at) => pairs(findNight(nightId), at),
    outlook: async (nightId, at) => outlook(findNight(nightId), at),
    async setUp(nightId) {
      const night = findNight(nightId)
      const { zone } = night.site
      const evening = sky.evening(eveningDate(night), placeOf(night.site), zone)
      const { fromAt } = await outlook(night, starsSought(night, evening))
      const times = setUpTimes({ ...evening, ...nightHours(night), starsFromAt: fromAt })
      const alignAt = times.find(({ step }) => step === 'align')?.at
      const sun = sunTonight(night.site, evening, nightHours(night).opensAt)
      return { sun, times, pairs: alignAt === undefined ? [] : await pairs(night, alignAt) }
    },
  }
}

/** From when stars are looked for: the end of civil twilight, where there is one. */
const starsSought = (night: Night, { civilDuskAt, sunsetAt }: SkyEvening): Date =>
  civilDuskAt ?? sunsetAt ?? new Date(nightHours(night).opensAt.getTime() - BEFORE_OPENING_MS)

/** Every star that may be chosen, and every one that might be taken for such a star; of a pair only the brighter. */
export function brightStars(objects: Pick<ObjectStore, 'stars' | 'find'>): readonly BrightStar[] {
  const stars = new Map<string, BrightStar>()
  for (const { hip, magnitude, bv, ...place } of objects.stars(FAINTEST_MAG + RIVAL_MAG)) {
    const found = objects.find(`hip${hip}`)
    if (!found || stars.has(found.canonicalKey)) continue
    stars.set(found.canonicalKey, { key: found.canonicalKey, name: found.object.name, magnitude, bv, place })
  }
  return [...stars.values()]
}
