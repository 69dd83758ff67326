import { declinationDeg } from '../sky/magnetic.ts'
import type { Night } from '../tours/night.ts'
import { placeOf, type Site } from '../tours/site.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Tour } from '../tours/tour.ts'
import type { FaultAsk, FaultFinding } from './fault-slices.ts'
import type { Jobs } from './jobs.ts'

/** Why a mount misses what it is sent to at an instant; without a question only what it can be sent to. */
export type FaultDesk = (nightId: string, at: Date, ask: FaultAsk | null) => Promise<FaultFinding>

export interface FaultNeeds {
  readonly findNight: (id: string) => Night
  readonly programme: (nightId: string) => Tour | undefined
  readonly allSites: () => readonly Site[]
  readonly jobs: Jobs
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
}

export const faultDesk =
  ({ findNight, programme, allSites, jobs, own }: FaultNeeds): FaultDesk =>
  async (nightId, at, ask) => {
    const night = findNight(nightId)
    const { stops = [], spares = [] } = programme(nightId) ?? {}
    return jobs.run<'faults'>({
      kind: 'faults',
      night,
      own: own(),
      targetKeys: [...stops, ...spares].map(({ targetKey }) => targetKey),
      at,
      ask,
      declinationDeg: declinationDeg(placeOf(night.site), at).declinationDeg,
      otherPlaces: allSites()
        .filter(({ id }) => id !== night.site.id)
        .map(placeOf),
    })
  }
