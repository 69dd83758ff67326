import type { TourState } from '../../server/desk/desk.ts'
import { passesIn } from '../../server/tours/own-pass.ts'
import { boardPage } from '../../server/web/pages/board.ts'
import { fieldPage } from '../../server/web/pages/field.ts'
import { fieldRowPage } from '../../server/web/pages/field-row.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { linePage } from '../../server/web/pages/line.ts'
import { nightsPage, sitesPage } from '../../server/web/pages/lists.ts'
import { newcomersPage } from '../../server/web/pages/newcomers.ts'
import { nightFormPage } from '../../server/web/pages/night-form.ts'
import { nightObjectsPage } from '../../server/web/pages/night-objects.ts'
import { objectTonightPage } from '../../server/web/pages/object-tonight.ts'
import { problemPage } from '../../server/web/pages/problem-page.ts'
import { programmePage } from '../../server/web/pages/programme.ts'
import { siteFormPage } from '../../server/web/pages/site-form.ts'
import { THE_AGAIN } from './again-data.ts'
import { BACKUP_PAGES } from './backup-pages.ts'
import { A_BESIDE, A_MIXED_NIGHT } from './beside-data.ts'
import { CARRY_PAGES } from './carry-pages.ts'
import { CHECK_PAGES } from './check-pages.ts'
import { DATE_PAGES } from './dates-data.ts'
import { A_BAD_STATUS } from './fake-backups.ts'
import { FAULT_PAGES } from './fault-data.ts'
import { A_NIGHT, A_SITE, A_TELESCOPE } from './field-data.ts'
import { BARE_FIELD, FIELD } from './field-subject.ts'
import { GO_PAGES, nothingKnown } from './go-data.ts'
import { A_MISSING } from './hole-data.ts'
import { A_PHONE_NOW, A_WAITING_PHONE } from './join-data.ts'
import { A_LEARNING, AN_IN_USE, NOTHING_LEARNT } from './learning-data.ts'
import { A_LINE_ANSWER, AN_EMPTY_LINE } from './line-data.ts'
import { NOTE_PAGES } from './note-pages.ts'
import { A_PASS_DRAFT, ownThing } from './own-object-data.ts'
import { OWN_PAGES } from './own-pages.ts'
import { A_CHECK, A_FIELD, AN_EVENING, HOLDING, HOST, NAMES, TOUR, UNTOLD, VISITOR } from './page-data.ts'
import { PAPER_PAGES } from './paper-pages.ts'
import { PHONE_PAGES } from './phone-pages.ts'
import { QUEUE_PAGES } from './queue-data.ts'
import { READING_PAGES } from './reading-pages.ts'
import { REPORT_PAGES } from './report-pages.ts'
import { SET_UP_PAGES } from './set-up-pages.ts'
import { START_PAGES } from './start-data.ts'
import { TELESCOPE_PAGES } from './telescope-pages.ts'
import { ONE_THING, THE_LIST } from './thing-pages.ts'
import { A_HIT, A_TONIGHT, NEVER_TONIGHT } from './tonight-data.ts'
import { THE_WISHES } from './wish-pages.ts'

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
    { field: 'zone', key: 'problem.zone-elsewhere', values: { zone: 'Asia/Tokyo', place: 'Europe/Berlin' } },
    { field: 'skylineList', key: 'own.line', values: { line: 3, message: 'The height is missing.' } },
    { field: 'settings.cycleSec', key: 'problem.type' },
    { field: 'stations', key: 'problem.too-few', values: { minimum: 1 } },
  ],
}
const town = { ...A_SITE, name: 'Oberried', country: 'Germany', region: 'Bavaria' }
const newKey = () => 'key-12345'
const OUT_OF_USE: TourState = { isCurrent: false, isStale: true, waiting: null }
const WAITED_FOR: TourState = { ...HOLDING, waiting: { id: 'tour-2', version: 2, madeAt: A_CHECK.at } }
const station = A_NIGHT.stations[0]
if (!station) throw new Error('The night of the tests has a station')

type Models = { readonly [Name in keyof Pages]: readonly [full: Pages[Name], empty: Pages[Name]] }

/** Every page once with all that it can say and once with nothing. */
export const EVERY_PAGE: Models = {
  ...READING_PAGES,
  board: [
    boardPage(HOST, {
      night: A_NIGHT,
      evening: AN_EVENING,
      tour: TOUR,
      state: WAITED_FOR,
      field: A_FIELD,
      out: [],
      go: nothingKnown(A_NIGHT),
      phones: [A_PHONE_NOW, A_WAITING_PHONE],
      backups: A_BAD_STATUS,
      siteCount: 1,
      telescopeCount: 1,
      names: NAMES,
      newKey,
    }),
    boardPage(VISITOR, {
      night: undefined,
      evening: undefined,
      tour: undefined,
      state: undefined,
      field: undefined,
      out: [],
      go: undefined,
      phones: [],
      backups: null,
      siteCount: 0,
      telescopeCount: 0,
      names: UNTOLD,
      newKey,
    }),
  ],
  ...PHONE_PAGES,
  ...BACKUP_PAGES,
  ...DATE_PAGES,
  ...NOTE_PAGES,
  nights: [nightsPage(HOST, [A_NIGHT]), nightsPage(VISITOR, [])],
  newcomers: [
    newcomersPage(HOST, { site: A_SITE, learning: A_LEARNING, inUse: AN_IN_USE, trouble: 'fault.factor-moved' }),
    newcomersPage(VISITOR, { site: A_SITE, learning: NOTHING_LEARNT, inUse: undefined, trouble: null }),
  ],
  'night-form': [
    nightFormPage(HOST, {
      night: { night: A_NIGHT, hasTour: true },
      state: WRONG,
      halfHours: ['18:30', '19:00'],
      stationRows: 4,
      sites: [A_SITE],
      telescopes: [A_TELESCOPE],
      factors: [{ ...AN_IN_USE, siteId: A_SITE.id, site: A_SITE.name }],
    }),
    nightFormPage(HOST, {
      night: null,
      state: BLANK,
      halfHours: [],
      stationRows: 12,
      sites: [],
      telescopes: [],
      factors: [],
    }),
  ],
  sites: [sitesPage(HOST, [A_SITE, { ...A_SITE, horizon: [], glow: [] }], [A_NIGHT]), sitesPage(VISITOR, [], [])],
  'site-form': [
    siteFormPage(HOST, {
      id: null,
      state: WRONG,
      rows: { glows: 2, corners: null },
      drawn: A_SITE.horizon,
      notes: [{ key: 'skyline.gaps', values: { stretches: 'north to east (90 degrees)' } }],
      search: { query: 'ober', towns: [town], chosen: undefined },
    }),
    siteFormPage(HOST, {
      id: 'site-1',
      state: BLANK,
      rows: { glows: 8, corners: 3 },
      drawn: [],
      notes: [],
      search: null,
    }),
  ],
  ...TELESCOPE_PAGES,
  programme: [
    programmePage(HOST, {
      night: A_MIXED_NIGHT,
      tour: TOUR,
      state: OUT_OF_USE,
      by: 'telescope',
      names: NAMES,
      newKey,
      missing: A_MISSING,
      beside: A_BESIDE,
    }),
    programmePage(VISITOR, {
      night: BARE_NIGHT,
      tour: undefined,
      state: undefined,
      by: 'time',
      names: UNTOLD,
      newKey,
      missing: null,
      beside: null,
    }),
  ],
  again: THE_AGAIN,
  wishes: THE_WISHES,
  line: [
    linePage(HOST, { night: A_NIGHT, line: A_LINE_ANSWER, names: NAMES, notes: [] }),
    linePage(VISITOR, { night: A_NIGHT, line: AN_EMPTY_LINE, names: UNTOLD, notes: [] }),
  ],
  'night-objects': [
    nightObjectsPage(HOST, {
      night: A_NIGHT,
      hasTour: true,
      query: 'her',
      hits: [A_HIT],
      passes: passesIn(A_NIGHT, [ownThing(A_PASS_DRAFT)]),
    }),
    nightObjectsPage(VISITOR, { night: A_NIGHT, hasTour: false, query: 'zzz', hits: [], passes: [] }),
  ],
  'object-tonight': [
    objectTonightPage(HOST, { night: A_NIGHT, tonight: A_TONIGHT, hasTour: true, names: NAMES }),
    objectTonightPage(VISITOR, { night: BARE_NIGHT, tonight: NEVER_TONIGHT, hasTour: false, names: UNTOLD }),
  ],
  objects: THE_LIST,
  object: ONE_THING,
  ...OWN_PAGES,
  ...FAULT_PAGES,
  ...CHECK_PAGES,
  ...GO_PAGES,
  ...REPORT_PAGES,
  ...CARRY_PAGES,
  ...SET_UP_PAGES,
  ...START_PAGES,
  ...QUEUE_PAGES,
  ...PAPER_PAGES,
  'field-row': [fieldRowPage(HOST, FIELD), fieldRowPage(VISITOR, { ...BARE_FIELD, night: BARE_NIGHT })],
  field: [fieldPage(HOST, FIELD, station), fieldPage(VISITOR, BARE_FIELD, station)],
  problem: [
    problemPage(VISITOR, {
      status: 422,
      key: 'fault.invalid',
      message: 'No.',
      problems: [{ field: 'name', message: 'It is empty.' }],
    }),
    problemPage(VISITOR, { status: 404, key: 'fault.no-page', message: 'No.', problems: [] }),
  ],
}
