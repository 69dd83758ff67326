import type { Night } from '../tours/night.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Walk } from '../tours/walks.ts'
import type { Jobs } from './jobs.ts'

/** The ways of targets over trees and roofs on a night, in the order asked; what is on no telescope's list is left out. */
export type WalkDesk = (nightId: string, keys: readonly string[]) => Promise<readonly Walk[]>

interface Needs {
  readonly findNight: (id: string) => Night
  readonly own: () => readonly ShowObject[]
  readonly jobs: Jobs
}

/** Asks the worker, which has the evening's sky. */
export const walkDesk =
  ({ findNight, own, jobs }: Needs): WalkDesk =>
  async (nightId, keys) =>
    keys.length === 0 ? [] : jobs.run<'walks'>({ kind: 'walks', night: findNight(nightId), own: own(), keys })
