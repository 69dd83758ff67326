import type { ObjectStore } from '../../db/objects.ts'
import { type BareEyesMonth, bareEyesMonth } from '../tours/bare-eyes-month.ts'
import { eveningDate } from '../tours/hours.ts'
import type { Desk } from './desk.ts'

interface Needs {
  readonly findNight: Desk['nights']['find']
  readonly objects: Pick<ObjectStore, 'outreach'>
}

/** What people find by themselves with bare eyes in the four weeks after a night. */
export type BareEyesDesk = (nightId: string) => BareEyesMonth

const KEPT = 8

/** Reckons it from the list of the catalogue, once for a night with its site and date; the eight newest are kept. */
export function bareEyesDesk({ findNight, objects }: Needs): BareEyesDesk {
  const months = new Map<string, BareEyesMonth>()
  return (nightId) => {
    const night = findNight(nightId)
    const date = eveningDate(night)
    const key = JSON.stringify([nightId, night.site, date])
    const kept = months.get(key)
    if (kept) return kept
    const byEye = objects.outreach().filter(({ kind }) => kind === 'bare-eye' || kind === 'meteor-shower')
    const month = bareEyesMonth(night.site, date, byEye)
    months.set(key, month)
    for (const oldest of months.keys()) if (months.size > KEPT) months.delete(oldest)
    return month
  }
}
