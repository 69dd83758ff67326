import type { Night } from './night.ts'
import type { Stop, Tour } from './tour.ts'

/** The order of stops by their start; at the same moment in the order of the row, with stations that left it last. */
export function byTimeAndRow({ stations }: Pick<Night, 'stations'>): (a: Stop, b: Stop) => number {
  const placeIn = new Map(stations.map(({ id }, index) => [id, index]))
  const place = ({ stationId }: Stop): number => placeIn.get(stationId) ?? stations.length
  return (a, b) => a.startsAt.getTime() - b.startsAt.getTime() || place(a) - place(b)
}

/** Every target of a programme once, by its first stop, in the order of their showing. */
export function firstShowings(night: Pick<Night, 'stations'>, { stops }: Pick<Tour, 'stops'>): readonly Stop[] {
  const seen = new Set<string>()
  return stops.toSorted(byTimeAndRow(night)).filter(({ targetKey }) => !seen.has(targetKey) && seen.add(targetKey))
}
