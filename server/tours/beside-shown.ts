import { commonSpan, type HalfHourSpan, lengthMs } from './beside-lines.ts'
import type { Stop } from './tour.ts'

/** The part of a stop that falls into a half hour. */
export const partIn = ({ startsAt, endsAt }: Stop, half: HalfHourSpan): HalfHourSpan =>
  commonSpan({ fromAt: startsAt, toAt: endsAt }, half)

/** The stops of a programme that fall into a half hour, in the order of the programme. */
export const stopsIn = (stops: readonly Stop[], half: HalfHourSpan): readonly Stop[] =>
  stops.filter((stop) => lengthMs(partIn(stop, half)) > 0)

/** What each telescope shows for the longest part of a half hour, the earlier where two are as long. */
export function mainStopsIn(stops: readonly Stop[], half: HalfHourSpan): readonly Stop[] {
  const found = new Map<string, Stop>()
  const byTime = stopsIn(stops, half).toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
  for (const stop of byTime) {
    const other = found.get(stop.stationId)
    if (other === undefined || lengthMs(partIn(stop, half)) > lengthMs(partIn(other, half)))
      found.set(stop.stationId, stop)
  }
  return [...found.values()]
}
