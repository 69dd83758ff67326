import type { EveningAnswer, TourState } from '../../server/desk/desk.ts'
import type { Check, CheckLine } from '../../server/tours/check.ts'
import type { FieldState, StationNow } from '../../server/tours/field.ts'
import type { Story } from '../../server/tours/target.ts'
import type { Tour } from '../../server/tours/tour.ts'
import { readWordTables } from '../../server/web/language.ts'
import type { Names } from '../../server/web/pages/say.ts'
import type { SecondLanguage } from '../../server/web/pages/second-language.ts'
import type { Viewer } from '../../server/web/pages/sheet.ts'
import { createWords } from '../../server/words/words.ts'
import { A_NIGHT, A_TOUR, AN_OBJECT, THE_MOON } from './field-data.ts'

const TABLES = readWordTables()
export const ENGLISH = createWords(TABLES.en ?? {}, { language: 'en', hours12: false, units: 'metric' })
/** Without the German names of things in the sky, which the catalogue has. */
export const GERMAN = createWords(TABLES.de ?? {}, { language: 'de', hours12: false, units: 'metric' })

const at = (text: string): Date => new Date(`2026-11-20T${text}Z`)

/** The host at 18:45 by the clocks of the field, in a rehearsal. */
export const HOST: Viewer = {
  words: ENGLISH,
  mayHost: true,
  mayAct: true,
  now: at('17:45:00'),
  isRehearsal: true,
  path: '/',
  telescopeName: ({ name }) => name,
  siteName: ({ name }) => name,
}
export const VISITOR: Viewer = { ...HOST, mayHost: false, mayAct: false, isRehearsal: false }

export const A_STORY: Story = {
  key: 'm13',
  language: 'en',
  see: 'A round, grainy glow.',
  lookFor: 'Single stars at its edge.',
  how: 'Look a little beside it.',
  compare: 'As wide as the Moon is bright.',
  answer: 'It is older than the Sun.',
  children: '',
  more: '',
  sources: {},
}

const A_WORLD_EVENT = {
  fromYear: -22_000,
  toYear: -20_000,
  what: 'the ice reached farthest south',
  place: 'Europe',
  source: 'from memory',
}
export const NAMES: Names = {
  nameOf: (key) => (key === 'm13' ? AN_OBJECT.name : key),
  show: (key) => (key === 'm13' ? AN_OBJECT : undefined),
  story: (key) => (key === 'm13' ? A_STORY : undefined),
  worldEvents: () => [A_WORLD_EVENT],
}
/** Cards in the reader's language alone, and with a second one in which one thing is told. */
export const ONE_LANGUAGE: SecondLanguage = { language: null, languages: ['en'], story: () => undefined }
export const IN_GERMAN: SecondLanguage = {
  language: 'de',
  languages: ['de', 'en'],
  story: (key) =>
    key === 'm13'
      ? { ...A_STORY, language: 'de', see: 'Ein runder Nebel.', lookFor: 'Der Rand ist körnig.', answer: '' }
      : undefined,
}
export const UNTOLD: Names = { ...NAMES, story: () => undefined }

export const AN_EVENING: EveningAnswer = {
  date: A_NIGHT.date,
  zone: A_NIGHT.site.zone,
  sunsetAt: at('15:32:00'),
  civilDuskAt: at('16:05:00'),
  nauticalDuskAt: at('16:42:00'),
  astronomicalDuskAt: null,
  astronomicalDawnAt: null,
  nauticalDawnAt: null,
  civilDawnAt: null,
  sunriseAt: null,
  moonriseAt: at('12:10:00'),
  moonsetAt: at('23:40:00'),
  moon: { ...THE_MOON, litFraction: 0.55 },
  isMoonWaxing: true,
}

export const A_LINE: CheckLine = {
  targetKey: 'm13',
  aim: 'whole',
  stationId: 'station-1',
  isSpare: false,
  group: 'going',
  untilAt: at('18:40:00'),
  fromAt: null,
  cause: { code: 'skyline', name: 'oak' },
  minutesLeft: 25,
  altitudeDeg: 24.4,
  azimuthDeg: 292,
  point: 13,
  fists: 2.5,
  eyepieceHeightCm: 131,
}
export const A_CHECK: Check = {
  at: at('18:15:00'),
  lines: [
    A_LINE,
    { ...A_LINE, group: 'good', isSpare: true, untilAt: null, cause: null, minutesLeft: null },
    { ...A_LINE, group: 'coming', untilAt: null, fromAt: at('19:10:00'), altitudeDeg: -3, fists: 0 },
    { ...A_LINE, group: 'gone', untilAt: null, cause: { code: 'high' }, fists: 0.5 },
  ],
  changes: [{ code: 'check.turned-going', values: { name: 'Great cluster in Hercules', station: 'By the oak' } }],
}

/** A programme whose reasons and notices are such as the floor of the tours gives. */
export const TOUR: Tour = {
  ...A_TOUR,
  stops: A_TOUR.stops.map((stop) => ({
    ...stop,
    endsAt: at('18:30:00'),
    reasons: [{ code: 'tour.sets-first', values: { name: 'oak', time: '19:40' } }, { code: 'tour.anyone-sees' }],
  })),
  notices: [{ code: 'rule.moon-always', values: { from: '20:00', to: '20:30' } }],
}
/** The programme of the row, with nothing changed since and nothing newer. */
export const HOLDING: TourState = { isCurrent: true, isStale: false, waiting: null }
export const EMPTY_TOUR: Tour = { ...A_TOUR, stops: [], spares: [], notices: [] }

export const A_STATION_NOW: StationNow = {
  stationId: 'station-1',
  showing: { targetKey: 'm13', aim: 'whole', sinceAt: at('17:30:00'), isPlanned: true },
  untilAt: at('18:30:00'),
  next: { targetKey: 'm13', aim: 'close', atAt: at('18:30:00') },
  shown: [{ targetKey: 'm13', fromAt: at('17:30:00'), toAt: at('17:40:00') }],
  skipped: [],
  trouble: 'cloud',
  lastMarkKey: 'mark-key-1',
}
export const A_FIELD: FieldState = { seq: 3, at: at('17:45:00'), stations: [A_STATION_NOW], adultsIn: 0, childrenIn: 0 }
export const EMPTY_FIELD: FieldState = { ...A_FIELD, stations: [] }
