import { Fault } from '../errors.ts'
import type { Night } from '../tours/night.ts'
import { isOwnKey } from '../tours/own-object.ts'
import { isForTelescopes, type ShowObject } from '../tours/target.ts'
import type { Tour } from '../tours/tour.ts'
import type { Desk } from './desk.ts'
import type { Jobs } from './jobs.ts'

interface Needs {
  readonly objects: Desk['objects']
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
  readonly findNight: (id: string) => Night
  readonly programme: (nightId: string) => Tour | undefined
  readonly jobs: Jobs
}

/** One object on one night: where it walks, what every telescope shows of it, why it is on the programme or not. */
export const tonightDesk =
  ({ objects, own: ownNow, findNight, programme, jobs }: Needs): Desk['tonight'] =>
  async (nightId, key, at) => {
    const night = findNight(nightId)
    const own = ownNow()
    const object = isOwnKey(key) ? own.find((it) => it.key === key) : objects.show(key)
    if (object === undefined || !isForTelescopes(object))
      throw new Fault('conflict', 'fault.not-on-list', { name: objects.find(key).object.name })
    return jobs.run<'tonight'>({ kind: 'tonight', night, own, tour: programme(nightId) ?? null, object, at })
  }
