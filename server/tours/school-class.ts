import { instantOf } from './hours.ts'
import type { Night } from './night.ts'

/** A class that has the row to itself: from when to when, and the bells at which all groups change stations at once. */
export interface SchoolClass {
  readonly startsAt: Date
  readonly endsAt: Date
  readonly groups: number
  readonly bells: readonly Date[]
}

const MINUTE_MS = 60_000

/** The class of a night with its bells to the whole minute, as long for every group; null on a night without one. */
export function schoolClassOf(
  night: Pick<Night, 'date' | 'opens' | 'closes' | 'site' | 'settings'>,
): SchoolClass | null {
  const { schoolClass } = night.settings
  if (!schoolClass) return null
  const [startsAt, endsAt] = [instantOf(night, schoolClass.startsAt), instantOf(night, schoolClass.endsAt)]
  const { groups } = schoolClass
  const roundMs = (endsAt.getTime() - startsAt.getTime()) / groups
  const bells = Array.from(
    { length: groups - 1 },
    (_, k) => new Date(Math.round((startsAt.getTime() + (k + 1) * roundMs) / MINUTE_MS) * MINUTE_MS),
  )
  return { startsAt, endsAt, groups, bells }
}

/** True at an instant at which a class is in the middle of its round, so that nothing may be moved. */
export const isInClass = (schoolClass: SchoolClass | null, at: Date): boolean =>
  schoolClass !== null && schoolClass.startsAt < at && at < schoolClass.endsAt
