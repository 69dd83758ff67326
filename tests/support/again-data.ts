import type { AgainState } from '../../server/desk/again.ts'
import { Fault } from '../../server/errors.ts'
import { changesOf } from '../../server/tours/changes.ts'
import type { Stop, Tour } from '../../server/tours/tour.ts'
import { type AgainPage, againPage } from '../../server/web/pages/again.ts'
import { A_NIGHT } from './field-data.ts'
import { A_FIELD, A_STATION_NOW, EMPTY_FIELD, EMPTY_TOUR, HOST, NAMES, TOUR, UNTOLD, VISITOR } from './page-data.ts'

const at = (text: string): Date => new Date(`2026-11-20T${text}:00Z`)
const now = at('17:45')

/** A stop of m13 at the only station, unless it says otherwise. */
export function stopOf(from: string, to: string, more: Partial<Stop> = {}): Stop {
  const [stop] = TOUR.stops
  if (!stop) throw new Error('The programme of the tests has a stop')
  return { ...stop, startsAt: at(from), endsAt: at(to), ...more }
}

/** The old plan shows m13 until 18:30 and m15 from then on; the new one leaves m13 sooner, for m31. */
export const OLD: Tour = { ...TOUR, stops: [stopOf('17:30', '18:30'), stopOf('18:30', '19:00', { targetKey: 'm15' })] }
export const NEW: Tour = {
  ...TOUR,
  id: 'tour-2',
  version: 2,
  madeAt: at('17:40'),
  why: 'changed',
  tookOverAtSeq: null,
  stops: [
    stopOf('17:30', '18:15'),
    stopOf('18:15', '19:00', {
      targetKey: 'm31',
      reasons: [{ code: 'tour.instead-of', values: { name: 'Great cluster in Hercules' } }],
    }),
    stopOf('18:00', '19:00', { stationId: 'station-gone' }),
  ],
}

/** Clouds, a station that is out, a timed line, few people, something else on, and a programme that waits. */
export const AN_AGAIN: AgainState = {
  at: now,
  fromAt: now,
  news: {
    shut: ['w', 'nw', 'overhead'],
    shutUntilAt: at('18:15'),
    out: ['station-2'],
    cycleSec: new Map([['station-1', 46]]),
    crowd: 0.8,
  },
  field: {
    ...A_FIELD,
    adultsIn: 20,
    childrenIn: 8,
    stations: [
      { ...A_STATION_NOW, showing: { targetKey: 'm42', aim: 'whole', sinceAt: at('17:40'), isPlanned: false } },
    ],
  },
  tour: OLD,
  hasBegun: true,
  waiting: NEW,
  changes: changesOf(OLD.stops, NEW.stops, now),
}

/** Nothing has happened yet. */
export const NOTHING_AGAIN: AgainState = {
  ...AN_AGAIN,
  news: { shut: [], shutUntilAt: null, out: [], cycleSec: new Map(), crowd: 1 },
  field: EMPTY_FIELD,
  tour: EMPTY_TOUR,
  hasBegun: false,
  waiting: null,
  changes: [],
}

/** The page of a change of plan with all that it can say, and with nothing. */
export const THE_AGAIN: readonly [full: AgainPage, empty: AgainPage] = [
  againPage(HOST, {
    night: A_NIGHT,
    state: AN_AGAIN,
    versions: [OLD, NEW],
    form: {
      values: { opens: '18:30', closes: '25:00', 'shut.w': 'true', adults: 'many' },
      problems: [
        { field: 'adults', key: 'problem.type-integer' },
        { field: 'closes', key: 'problem.pattern' },
        { field: 'key', key: 'again.sent-before' },
      ],
    },
    trouble: new Fault('conflict', 'tour.nothing-visible'),
    names: NAMES,
    newKey: () => 'key-12345',
  }),
  againPage(VISITOR, {
    night: { ...A_NIGHT, visitors: [], stations: [] },
    state: NOTHING_AGAIN,
    versions: [],
    form: { values: {}, problems: [] },
    trouble: null,
    names: UNTOLD,
    newKey: () => 'key-12345',
  }),
]
