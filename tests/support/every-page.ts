import { boardPage } from '../../server/web/pages/board.ts'
import { cardsPage } from '../../server/web/pages/cards.ts'
import { checkPage } from '../../server/web/pages/check.ts'
import { type FieldSubject, fieldPage, fieldRowPage } from '../../server/web/pages/field.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { nightsPage, telescopesPage } from '../../server/web/pages/lists.ts'
import { nightFormPage } from '../../server/web/pages/night-form.ts'
import { problemPage } from '../../server/web/pages/problem-page.ts'
import { programmePage } from '../../server/web/pages/programme.ts'
import { runSheetPage } from '../../server/web/pages/run-sheet.ts'
import { signInPage } from '../../server/web/pages/sign-in.ts'
import { siteFormPage } from '../../server/web/pages/site-form.ts'
import { sheetsPage } from '../../server/web/pages/station-sheets.ts'
import { telescopeFormPage } from '../../server/web/pages/telescope-form.ts'
import { A_NIGHT, A_SITE, A_TELESCOPE } from './field-data.ts'
import {
  A_CHECK,
  A_FIELD,
  AN_EVENING,
  EMPTY_FIELD,
  EMPTY_TOUR,
  HOST,
  NAMES,
  TOUR,
  UNTOLD,
  VISITOR,
} from './page-data.ts'

const BARE_NIGHT = { ...A_NIGHT, visitors: [], stations: [] }
const BLANK = { values: {}, problems: [] }
const WRONG = {
  values: { 'visitors.0.startsAt': '18:30', 'visitors.0.adults': 'many' },
  problems: [
    { field: 'name', key: 'problem.too-short' },
    { field: 'title', key: 'problem.too-short' },
    { field: 'pin', key: 'fault.wrong-pin' },
    { field: 'visitors.0.adults', key: 'problem.type' },
    { field: 'tubes.0.apertureMm', key: 'problem.range', values: { minimum: 20, maximum: 1500 } },
    { field: 'horizon.3.altitudeDeg', key: 'problem.type' },
    { field: 'settings.cycleSec', key: 'problem.type' },
    { field: 'stations', key: 'problem.too-few', values: { minimum: 1 } },
  ],
}
const town = { ...A_SITE, name: 'Oberried', country: 'Germany', region: 'Bavaria' }
const field: FieldSubject = {
  night: A_NIGHT,
  tour: TOUR,
  field: A_FIELD,
  names: NAMES,
  look: 'lamp',
  newKey: () => 'key-12345',
}
const bareField: FieldSubject = { ...field, tour: undefined, field: EMPTY_FIELD, look: 'day' }
const station = A_NIGHT.stations[0]
if (!station) throw new Error('The night of the tests has a station')

type Models = { readonly [Name in keyof Pages]: readonly [full: Pages[Name], empty: Pages[Name]] }

/** Every page once with all that it can say and once with nothing. */
export const EVERY_PAGE: Models = {
  board: [
    boardPage(HOST, {
      night: A_NIGHT,
      evening: AN_EVENING,
      tour: TOUR,
      field: A_FIELD,
      siteCount: 1,
      telescopeCount: 1,
      names: NAMES,
    }),
    boardPage(VISITOR, {
      night: undefined,
      evening: undefined,
      tour: undefined,
      field: undefined,
      siteCount: 0,
      telescopeCount: 0,
      names: UNTOLD,
    }),
  ],
  'sign-in': [signInPage(VISITOR, WRONG, '/nights'), signInPage(VISITOR, BLANK, '/')],
  nights: [nightsPage(HOST, [A_NIGHT]), nightsPage(VISITOR, [])],
  'night-form': [
    nightFormPage(HOST, {
      id: 'night-1',
      state: WRONG,
      halfHours: ['18:30', '19:00'],
      stationRows: 4,
      sites: [A_SITE],
      telescopes: [A_TELESCOPE],
    }),
    nightFormPage(HOST, { id: null, state: BLANK, halfHours: [], stationRows: 12, sites: [], telescopes: [] }),
  ],
  'site-form': [
    siteFormPage(HOST, { state: WRONG, query: 'ober', towns: [town], chosen: town }),
    siteFormPage(HOST, { state: BLANK, query: 'nowhere', towns: [], chosen: undefined }),
  ],
  telescopes: [telescopesPage(HOST, [A_TELESCOPE]), telescopesPage(VISITOR, [])],
  'telescope-form': [telescopeFormPage(HOST, WRONG, 3), telescopeFormPage(HOST, BLANK, 12)],
  programme: [
    programmePage(HOST, { night: A_NIGHT, tour: TOUR, by: 'telescope', names: NAMES }),
    programmePage(VISITOR, { night: BARE_NIGHT, tour: undefined, by: 'time', names: UNTOLD }),
  ],
  check: [
    checkPage(HOST, A_NIGHT, A_CHECK, [A_CHECK.at], NAMES),
    checkPage(VISITOR, BARE_NIGHT, { at: A_CHECK.at, lines: [], changes: [] }, [], UNTOLD),
  ],
  'run-sheet': [
    runSheetPage(HOST, { night: A_NIGHT, evening: AN_EVENING, tour: TOUR, names: NAMES }, 'a4'),
    runSheetPage(HOST, { night: BARE_NIGHT, evening: AN_EVENING, tour: EMPTY_TOUR, names: UNTOLD }, 'letter'),
  ],
  sheets: [
    sheetsPage(HOST, { night: A_NIGHT, tour: TOUR, checks: [A_CHECK], names: NAMES }, 'a4'),
    sheetsPage(HOST, { night: A_NIGHT, tour: EMPTY_TOUR, checks: [], names: UNTOLD }, 'letter'),
  ],
  cards: [
    cardsPage(HOST, { night: A_NIGHT, tour: TOUR, names: NAMES }, 'a4'),
    cardsPage(HOST, { night: A_NIGHT, tour: EMPTY_TOUR, names: UNTOLD }, 'letter'),
  ],
  'field-row': [fieldRowPage(HOST, field), fieldRowPage(VISITOR, { ...bareField, night: BARE_NIGHT })],
  field: [fieldPage(HOST, field, station), fieldPage(VISITOR, bareField, station)],
  problem: [
    problemPage(VISITOR, { status: 422, message: 'No.', problems: [{ field: 'name', message: 'It is empty.' }] }),
    problemPage(VISITOR, { status: 404, message: 'No.', problems: [] }),
  ],
}
