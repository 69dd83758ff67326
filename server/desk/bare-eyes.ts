import type { ObjectStore } from '../../db/objects.ts'
import { type BareEyesMonth, bareEyesMonth } from '../tours/bare-eyes-month.ts'
import { eveningDate } from '../tours/hours.ts'
import type { Desk } from './desk.ts'
import { shelf } from './shelf.ts'

interface Needs {
  readonly findNight: Desk['nights']['find']
  readonly objects: Pick<ObjectStore, 'outreach'>
}

/** What people find by themselves with bare eyes in the four weeks after a night. */
export type BareEyesDesk = (nightId: string) => BareEyesMonth

const KEPT = 8

/** Reckons it from the list of the catalogue, once for a night with its site and date; the eight last used are kept. */
export function bareEyesDesk({ findNight, objects }: Needs): BareEyesDesk {
  const months = shelf<BareEyesMonth>(KEPT)
  return (nightId) => {
    const night = findNight(nightId)
    const date = eveningDate(night)
    const key = JSON.stringify([nightId, night.site, date])
    return months.take(key, () => {
      const byEye = objects.outreach().filter(({ kind }) => kind === 'bare-eye' || kind === 'meteor-shower')
      return bareEyesMonth(night.site, date, byEye)
    })
  }
}
