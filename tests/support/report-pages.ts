import type { NightReport } from '../../server/desk/reports.ts'
import { nightHours } from '../../server/tours/hours.ts'
import type { Mark } from '../../server/tours/mark.ts'
import { nightFacts } from '../../server/tours/report.ts'
import { NO_EDITS, type ReportEdits } from '../../server/tours/report-edits.ts'
import { seasonOf } from '../../server/tours/report-season.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { reportPage } from '../../server/web/pages/report.ts'
import { seasonPage } from '../../server/web/pages/season.ts'
import { A_NIGHT, A_TOUR } from './field-data.ts'
import { A_GO, nothingKnown } from './go-data.ts'
import { HOST, NAMES, VISITOR } from './page-data.ts'

const at = (time: string): Date => new Date(`2026-11-20T${time}:00Z`)
const AFTER = nightHours(A_NIGHT).closesAt

/** An act of the night at a time of its evening, in UTC. */
export const markAt = (
  seq: number,
  time: string,
  kind: Mark['kind'],
  payload: Mark['payload'],
  stationId: string | null = 'station-1',
): Mark => ({
  ...{ seq, key: `key-${seq}-of-many`, nightId: A_NIGHT.id, stationId, kind, payload, by: 'Ada' },
  receivedAt: at(time),
  happenedAt: at(time),
})

export const SOME_MARKS: readonly Mark[] = [
  markAt(1, '17:25', 'counted', { adults: 12, children: 7 }, null),
  markAt(2, '17:40', 'timed', { people: 10, seconds: 500 }),
  markAt(3, '17:45', 'seen', { targetKey: 'm13', who: 'they' }),
  markAt(4, '17:50', 'seen', { targetKey: 'm13', who: 'not' }),
  markAt(5, '18:10', 'showing', { targetKey: 'saturn', aim: 'whole' }),
  markAt(6, '18:20', 'counted', { adults: -4, children: -2 }, null),
  markAt(7, '18:40', 'skipped', { targetKey: 'saturn', why: 'cloud' }),
  markAt(8, '18:41', 'clouds', { shut: ['w', 'overhead'], minutes: 20 }, null),
  markAt(9, '19:05', 'clouds', { shut: [], minutes: null }, null),
]
const EDITS: ReportEdits = {
  ...{ adults: 14, looks: 66, ranFrom: '18:35', extraHelpers: 2 },
  ...{
    sky: 'Thin cloud in the west.',
    weather: 'Still and cold.',
    helpers: 'Thanks to the mill.',
    improve: 'More lamps.',
  },
}

const FACTS = nightFacts({ night: A_NIGHT, stations: A_NIGHT.stations, tours: [A_TOUR], marks: SOME_MARKS, at: AFTER })
export const A_REPORT: NightReport = {
  night: A_NIGHT,
  stations: A_NIGHT.stations,
  facts: FACTS,
  edits: EDITS,
  go: A_GO,
  closedAt: null,
}
/** A night that has not begun, and of which nobody knows anything. */
export const AN_EARLY_REPORT: NightReport = {
  ...A_REPORT,
  facts: nightFacts({ night: A_NIGHT, stations: A_NIGHT.stations, tours: [], marks: [], at: at('15:00') }),
  edits: NO_EDITS,
  go: nothingKnown(A_NIGHT),
}

const WRONG = {
  values: { adults: 'many', improve: 'x' },
  problems: [{ field: 'adults', key: 'problem.type-integer' }],
}
const BLANK = { values: {}, problems: [] }

export const A_SEASON = seasonOf(2026, [
  { night: A_NIGHT, facts: FACTS, edits: EDITS },
  { night: { ...A_NIGHT, id: 'night-2', date: '2026-09-18' }, facts: AN_EARLY_REPORT.facts, edits: NO_EDITS },
])

export const REPORT_PAGES: {
  readonly [Name in 'report' | 'season']: readonly [full: Pages[Name], empty: Pages[Name]]
} = {
  report: [
    reportPage(HOST, { report: A_REPORT, names: NAMES, hasTour: true, state: WRONG }),
    reportPage(VISITOR, { report: AN_EARLY_REPORT, names: NAMES, hasTour: false, state: BLANK }),
  ],
  season: [
    seasonPage(HOST, { season: A_SEASON, years: [2026, 2025], names: NAMES }),
    seasonPage(VISITOR, { season: seasonOf(2026, []), years: [], names: NAMES }),
  ],
}
