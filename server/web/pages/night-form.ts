import { eveningDate } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Site } from '../../tours/site.ts'
import type { Telescope } from '../../tours/telescope.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { nightSheet } from './night-links.ts'
import { type FactorOfSite, settingFields } from './night-settings.ts'
import { stationRow } from './night-stations.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'
import type { GrowingRows } from './site-rows.ts'
import { besideFirst, type FormRow, fieldsInRows } from './telescope-form-rows.ts'

export interface NightFormPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly action: string
  readonly problems: ProblemList | null
  readonly missing: readonly { readonly href: string; readonly text: string }[]
  readonly fields: readonly Field[]
  readonly newSiteText: string
  readonly visitorsLabel: string
  readonly visitorsHint: string
  readonly visitorHeads: readonly string[]
  readonly visitors: readonly VisitorRow[]
  readonly visitorsButton: string
  readonly stationsLabel: string
  readonly stationsHint: string
  readonly stations: readonly FormRow[]
  readonly stationRows: GrowingRows
  /** Puts every telescope in use into the row; null without any. */
  readonly wholeKit: string | null
  /** From which night the row was taken. */
  readonly rowFrom: string | null
  readonly settingsLabel: string
  readonly settingsHint: string
  readonly isSettingsOpen: boolean
  readonly settings: readonly Field[]
  readonly save: string
}

interface VisitorRow {
  readonly time: string
  readonly timeName: string
  readonly fields: readonly Field[]
}

interface NightFormSubject {
  /** The night that is changed, or null for a new one. */
  readonly night: { readonly night: Night; readonly hasTour: boolean } | null
  readonly state: FormState
  /** Start of each half hour of the public hours, `HH:mm`. */
  readonly halfHours: readonly string[]
  readonly stationRows: number
  /** The earlier night that the row was taken from. */
  readonly rowFrom?: Pick<Night, 'title' | 'date'> | undefined
  readonly sites: readonly Site[]
  readonly telescopes: readonly Telescope[]
  readonly factors: readonly FactorOfSite[]
}

export const MOST_STATIONS = 12

/** The form of a night, new or to be changed. */
export function nightFormPage(viewer: Viewer, subject: NightFormSubject): NightFormPage {
  const { words } = viewer
  const { night, stationRows } = subject
  const state = besideFirst(subject.state, { stations: 'stations.0.telescopeId' })
  const title = words.say(night === null ? 'page.new-night' : 'page.edit-night')
  const fields = mainFields(viewer, subject)
  const visitors = subject.halfHours.map((time, index) => visitorRow(words, state, time, index))
  const stations = Array.from({ length: stationRows }, (_, index) =>
    stationRow(words, { ...subject, state, nameOf: viewer.telescopeName }, index),
  )
  const settings = settingFields(words, state, subject.factors)
  const people = visitors.flatMap((row) => row.fields)
  const shown = [...fields, ...people, ...fieldsInRows(words, stations), ...settings]
  return {
    sheet: night === null ? daySheet(viewer, title, 'nights') : nightSheet(viewer, title, { ...night, here: 'edit' }),
    ...labels(words),
    title,
    action: night === null ? '/nights' : `/nights/${night.night.id}`,
    problems: problemList(words, state, shown),
    missing: missing(words, subject),
    fields,
    visitors,
    stations,
    ...rowTexts(words, subject),
    isSettingsOpen: settings.some(({ isInvalid }) => isInvalid),
    settings,
  }
}

function rowTexts(words: Words, { stationRows, telescopes, rowFrom }: NightFormSubject) {
  const more = stationRows < MOST_STATIONS ? words.say('page.more-stations') : null
  return {
    stationRows: { name: 'stationRows', count: String(stationRows), moreText: more },
    wholeKit: telescopes.some(({ isPutAway }) => isPutAway !== true) ? words.say('kit.whole') : null,
    rowFrom: rowFrom ? words.say('kit.row-from', { title: rowFrom.title, date: words.date(rowFrom.date) }) : null,
  }
}

const labels = (words: Words) => ({
  intro: words.say('page.night-intro'),
  newSiteText: words.say('page.add-site'),
  visitorsLabel: words.say('page.visitors'),
  visitorsHint: words.say('page.visitors-hint'),
  visitorHeads: ['half-hour', 'adults', 'children', 'seated'].map((name) => words.say(`page.visitors-${name}`)),
  visitorsButton: words.say('page.visitors-button'),
  stationsLabel: words.say('page.row'),
  stationsHint: words.say('page.row-hint'),
  settingsLabel: words.say('page.settings'),
  settingsHint: words.say('page.settings-hint'),
  save: words.say('page.save-night'),
})

function missing(words: Words, { sites, telescopes }: NightFormSubject): NightFormPage['missing'] {
  return [
    ...(sites.length === 0 ? [{ href: '/sites/new', text: words.say('page.missing-site') }] : []),
    ...(telescopes.length === 0 ? [{ href: '/telescopes/new', text: words.say('page.missing-telescope') }] : []),
  ]
}

function mainFields({ words, siteName }: Viewer, { state, sites }: NightFormSubject): Field[] {
  const form = formFields(words, state)
  return [
    form.text('title', {
      label: words.say('page.night-title'),
      hint: words.say('page.night-title-hint'),
      isWide: true,
    }),
    form.choice(
      'siteId',
      { label: words.say('page.night-site'), isWide: true },
      sites.map((site) => ({ value: site.id, text: siteName(site) })),
    ),
    form.text('date', { label: words.say('page.night-date'), hint: dateHint(words, state), type: 'date' }),
    form.text('opens', { label: words.say('page.night-opens'), hint: words.say('page.clock-hint') }),
    form.text('closes', { label: words.say('page.night-closes'), hint: words.say('page.clock-hint') }),
  ]
}

const DATE = /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/
const CLOCK_TIME = /^\d\d:\d\d$/

/**
 * The date as it was last kept or sent, with the month as a word, because day and month are easily swapped; of a night
 * that opens after midnight also the evening to which it belongs.
 */
function dateHint(words: Words, { values: { date = '', opens = '', closes = '' } }: FormState): string {
  if (!DATE.test(date)) return words.say('page.night-date-hint')
  const evening = CLOCK_TIME.test(opens) && CLOCK_TIME.test(closes) ? eveningDate({ date, opens, closes }) : date
  if (evening === date) return words.date(date)
  return words.say('page.night-date-after-midnight', { date: words.date(date), evening: words.date(evening) })
}

function visitorRow(words: Words, state: FormState, time: string, index: number): VisitorRow {
  const form = formFields(words, state)
  return {
    time,
    timeName: `visitors.${index}.startsAt`,
    fields: (['adults', 'children', 'seated'] as const).map((who) =>
      form.text(`visitors.${index}.${who}`, {
        label: words.say('page.visitors-at', { who: words.say(`page.visitors-${who}`), time }),
        inputMode: 'numeric',
        fallback: '0',
      }),
    ),
  }
}
