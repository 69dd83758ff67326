import type { Night } from '../tours/night.ts'
import type { ShowObject } from '../tours/target.ts'
import { nearEvening } from './checks.ts'
import type { Desk } from './desk.ts'
import type { Jobs } from './jobs.ts'

interface Needs {
  readonly findNight: (id: string) => Night
  readonly jobs: Jobs
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
}

/** What can be shown through a hole in the clouds. */
export const holeDesk =
  ({ findNight, jobs, own }: Needs): Desk['hole'] =>
  async (nightId, open, at) => {
    const night = findNight(nightId)
    return jobs.run<'hole'>({ kind: 'hole', night, own: own(), open, at: nearEvening(night, at) })
  }
