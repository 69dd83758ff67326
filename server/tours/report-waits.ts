import { foldField } from './fold.ts'
import { halfHourStarts, instantOf } from './hours.ts'
import { lineNow } from './line-now.ts'
import type { Mark } from './mark.ts'
import type { Night } from './night.ts'
import { type ReportTour, tourAt } from './report-held.ts'

/** The lines at the start of one half hour, as the line helper's page estimates them. */
export interface ReportWait {
  readonly at: Date
  /** Of the stations at which people could look then. */
  readonly stations: readonly {
    readonly stationId: string
    readonly inLine: number
    readonly waitMin: number
    /** True when the time a look takes was timed there. */
    readonly isMeasured: boolean
  }[]
}

/** The starts of the half hours of the public hours, by the site's clocks. */
export const halfHoursOf = (night: Night): readonly Date[] =>
  halfHourStarts(night).map((start) => instantOf(night, start))

/** The lines at every half hour that has come, by the programme that held then and the acts until then. */
export const waitsOf = (
  night: Night,
  tours: readonly ReportTour[],
  marks: readonly Mark[],
  at: Date,
): readonly ReportWait[] =>
  halfHoursOf(night)
    .filter((start) => start <= at)
    .map((start) => waitAt(night, tours, marks, start))

function waitAt(night: Night, tours: readonly ReportTour[], marks: readonly Mark[], at: Date): ReportWait {
  const tour = tourAt(tours, marks, at)
  const line = lineNow({ night, stops: tour?.stops ?? [], field: foldField({ night, tour, marks, at }), marks })
  return {
    at,
    stations: line.stations.flatMap(({ stationId, queue }) =>
      queue === null ? [] : [{ stationId, inLine: queue.inLine, waitMin: queue.waitMin, isMeasured: queue.isMeasured }],
    ),
  }
}
