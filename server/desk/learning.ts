import type { NewcomerStore } from '../../db/newcomers.ts'
import type { Clock } from '../clock.ts'
import { Fault } from '../errors.ts'
import { nightHours } from '../tours/hours.ts'
import { type SiteLearning, seenMarks } from '../tours/learning.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Desk } from './desk.ts'
import type { Jobs } from './jobs.ts'
import type { MarkLog } from './mark-log.ts'

type Needs = Pick<Desk, 'sites' | 'nights'> & {
  readonly newcomers: NewcomerStore
  readonly log: MarkLog
  readonly jobs: Jobs
  readonly clock: Clock
  /** All that a host ever entered, as it stood at an instant: marks outlive the list and its changes. */
  readonly ownAsOf: (at: Date) => readonly ShowObject[]
}

/** What the marks of a site tell of its newcomers, and the host's choice to go by them. */
export function learningDesk({ sites, nights, newcomers, log, jobs, clock, ownAsOf }: Needs): Desk['learning'] {
  // Anyone may read the page, and there is one worker: the same nights and marks are reckoned once.
  const answers = new Map<string, { readonly asked: string; readonly answer: SiteLearning }>()
  const marked = (siteId: string) =>
    nights
      .all()
      .filter(({ site }) => site.id === siteId)
      .map((night) => ({ night: { ...night, stations: nights.everyStation(night.id) }, marks: log.all(night.id) }))
      .filter(({ marks }) => seenMarks(marks).length > 0)
      .map((of) => ({ ...of, own: ownAsOf(nightHours(of.night).closesAt) }))

  async function ofSite(siteId: string): Promise<SiteLearning> {
    const of = marked(sites.find(siteId).id)
    const asked = JSON.stringify(of.map(({ night, marks }) => [night, marks.at(-1)?.seq]))
    const before = answers.get(siteId)
    if (before?.asked === asked) return before.answer
    const answer = await jobs.run<'learning'>({ kind: 'learning', nights: of })
    answers.set(siteId, { asked, answer })
    return answer
  }

  return {
    ofSite,
    inUse: (siteId) => newcomers.find(sites.find(siteId).id),
    async use(siteId, factorRead) {
      const { site } = await ofSite(siteId)
      if (site.telling === 0) throw new Fault('conflict', 'fault.no-telling-marks')
      const taken = { factor: rounded(site.factor), low: rounded(site.low), high: rounded(site.high) }
      if (taken.factor !== factorRead) throw new Fault('conflict', 'fault.factor-moved')
      newcomers.put(siteId, { ...taken, marks: site.telling, setAt: clock.now() })
    },
    forget: (siteId) => newcomers.remove(sites.find(siteId).id),
  }
}

/** A factor to the tenth, as pages say it. */
const rounded = (factor: number): number => Number(factor.toFixed(1))
