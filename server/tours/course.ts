import type { StationNow } from './field.ts'
import { actsUntil } from './fold.ts'
import type { Grid } from './grid.ts'
import type { Mark } from './mark.ts'
import { stationNow } from './station-fold.ts'
import type { Stop } from './tour.ts'

/** A night under way: the programme that the row goes by, the marks of the field, and the time. */
export interface Again {
  readonly stops: readonly Stop[]
  readonly marks: readonly Mark[]
  readonly at: Date
}

/** Nothing is shown; something is, but nothing that the grid knows. */
export const NOTHING = -1
export const SOMETHING_ELSE = -2

/** The course of a row at station * slots + slot: what was shown and, where nobody acts, what will be. */
export type Course = Int16Array

/** What each station showed in the middle of each past quarter, shows now, and will show at the start of each one ahead if nobody acts. */
export function courseOf(grid: Grid, again: Again): Course {
  const course = new Int16Array(grid.stations.length * grid.slots)
  const acts = actsUntil(again.marks, again.at)
  for (const [s, { id }] of grid.stations.entries()) {
    for (let t = 0; t < grid.slots; t++) {
      const { showing } = stationAt(again.stops, acts, id, askedAt(grid, t, again.at))
      course[s * grid.slots + t] = showing === null ? NOTHING : numberOf(grid, showing)
    }
  }
  return course
}

/** What a station shows at an instant by acts in their order; after the last of them, where nobody acts. */
export const stationAt = (stops: readonly Stop[], acts: readonly Mark[], stationId: string, at: Date): StationNow =>
  stationNow(
    stationId,
    stops.filter((stop) => stop.stationId === stationId),
    acts.filter((mark) => mark.stationId === stationId && mark.happenedAt <= at),
    at,
  )

function askedAt({ borders }: Grid, slot: number, at: Date): Date {
  const [fromAt, toAt] = [borders[slot] ?? at, borders[slot + 1] ?? at]
  if (toAt <= at) return new Date((fromAt.getTime() + toAt.getTime()) / 2)
  return fromAt <= at ? at : fromAt
}

function numberOf({ candidates }: Grid, { targetKey, aim }: Pick<Stop, 'targetKey' | 'aim'>): number {
  const found = candidates.findIndex((candidate) => candidate.targetKey === targetKey && candidate.aim === aim)
  return found < 0 ? SOMETHING_ELSE : found
}

/** The quarter that holds an instant: as many as are over before it. */
export const slotAt = ({ borders }: Pick<Grid, 'borders'>, at: Date): number =>
  borders.slice(1).filter((border) => border <= at).length
