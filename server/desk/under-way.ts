import type { Again } from '../tours/course.ts'
import { nightHours } from '../tours/hours.ts'
import type { Mark } from '../tours/mark.ts'
import { isNoNews, newsOf } from '../tours/news.ts'
import type { Night } from '../tours/night.ts'
import { hasBegun } from '../tours/programme.ts'
import type { Tour } from '../tours/tour.ts'

/** True when the row already goes by a programme of this very evening. */
export const isUnderWay = (night: Night, current: Tour | undefined, marks: readonly Mark[], at: Date): boolean => {
  const { opensAt, closesAt } = nightHours(night)
  const isOfTonight = !current || current.stops.some((stop) => stop.startsAt < closesAt && opensAt < stop.endsAt)
  return isOfTonight && hasBegun(current, marks, at)
}

/** What a programme made now must go on from; null while the whole evening is still to come and nothing stands in its way. */
export function againOf(night: Night, current: Tour | undefined, marks: readonly Mark[], at: Date): Again | null {
  const isGoingOn = isUnderWay(night, current, marks, at)
  if (!isGoingOn && isNoNews(newsOf(night, marks, at))) return null
  return { stops: isGoingOn ? (current?.stops ?? []) : [], marks: [...marks], at }
}
