import type { Mark } from '../../server/tours/mark.ts'
import type { FieldSubject } from '../../server/web/pages/field.ts'
import type { FieldRowSubject } from '../../server/web/pages/field-row.ts'
import { A_BESIDE, A_MIXED_NIGHT } from './beside-data.ts'
import { A_NIGHT } from './field-data.ts'
import { A_GOOD_NOW } from './good-now-data.ts'
import { A_CHECK, A_FIELD, EMPTY_FIELD, NAMES, TOUR, UNTOLD } from './page-data.ts'

/** A mark as an operator's phone made it. */
export const A_MARK: Mark = {
  seq: 1,
  key: 'mark-key-1',
  nightId: A_NIGHT.id,
  stationId: 'station-1',
  kind: 'showing',
  payload: { targetKey: 'm13', aim: 'whole' },
  by: 'Ines',
  receivedAt: A_FIELD.at,
  happenedAt: A_FIELD.at,
}

const NO_NEWS = { shut: [], shutUntilAt: null, out: [], cycleSec: new Map(), crowd: 1 }

/** A field with all that can be said of it: clouds, a station that has left, phones, a search. */
export const FIELD: FieldSubject & FieldRowSubject = {
  night: A_MIXED_NIGHT,
  tour: TOUR,
  field: A_FIELD,
  news: { ...NO_NEWS, shut: ['n', 'overhead'], shutUntilAt: new Date('2026-11-20T18:30:00Z'), out: ['station-1'] },
  version: 'first.3',
  beside: A_BESIDE,
  names: NAMES,
  look: 'lamp',
  newKey: () => 'key-12345',
  good: A_GOOD_NOW,
  checked: { at: A_CHECK.at, check: A_CHECK },
  standing: [A_MARK],
  query: 'her',
  phones: [
    { name: 'Mira', stationId: 'station-1' },
    { name: 'Tom', stationId: null },
  ],
}

/** A field of which nothing is known yet. */
export const BARE_FIELD: FieldSubject & FieldRowSubject = {
  ...FIELD,
  night: A_NIGHT,
  tour: undefined,
  field: EMPTY_FIELD,
  news: NO_NEWS,
  beside: [],
  names: UNTOLD,
  look: 'day',
  good: null,
  checked: { at: A_CHECK.at, check: null },
  standing: [],
  query: '',
  phones: [],
}
