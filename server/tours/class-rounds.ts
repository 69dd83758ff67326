import type { Station } from './night.ts'
import type { SchoolClass } from './school-class.ts'
import type { Tour } from './tour.ts'

/** Where every group is in every round, by the place of the station in the row; and the two that are worth most. */
interface ClassPlan {
  /** For each round, from the start or a bell on, the station of each group. */
  readonly rounds: readonly (readonly number[])[]
  /** The best two, in the order of the row; [] where the programme shows nothing at two stations meanwhile. */
  readonly best: readonly number[]
}

/**
 * As many rounds as groups. Where there are more stations than rounds, only the best ones are gone round, so that every
 * group stands at each of them, the best two among them; no two groups meet where there are stations enough.
 */
export function classPlan(
  found: Pick<SchoolClass, 'startsAt' | 'endsAt' | 'groups'>,
  stations: readonly Pick<Station, 'id'>[],
  stops: Tour['stops'],
): ClassPlan {
  const { groups } = found
  const worths = stations.map(({ id }) => worthAt(id, found, stops))
  const byWorth = stations.map((_station, at) => at).toSorted((a, b) => (worths[b] ?? 0) - (worths[a] ?? 0) || a - b)
  const round = byWorth.slice(0, groups).toSorted((a, b) => a - b)
  const numbers = Array.from({ length: groups }, (_, k) => k)
  return {
    rounds: numbers.map((k) => numbers.map((group) => round[(group + k) % round.length] ?? 0)),
    best: (worths[byWorth[1] ?? -1] ?? 0) > 0 ? byWorth.slice(0, 2).toSorted((a, b) => a - b) : [],
  }
}

/** What a newcomer gets to see at a station while the class is there: chance times view, by the time that it is shown. */
function worthAt(
  stationId: string,
  { startsAt, endsAt }: Pick<SchoolClass, 'startsAt' | 'endsAt'>,
  stops: Tour['stops'],
): number {
  return stops
    .filter((stop) => stop.stationId === stationId)
    .reduce((sum, stop) => {
      const fromMs = Math.max(startsAt.getTime(), stop.startsAt.getTime())
      const untilMs = Math.min(endsAt.getTime(), stop.endsAt.getTime())
      return sum + Math.max(0, untilMs - fromMs) * stop.chance * stop.view
    }, 0)
}
