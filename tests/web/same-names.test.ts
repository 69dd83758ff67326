import { describe, expect, it } from 'vitest'
import { labelOf } from '../../server/drawings/score-said.ts'
import type { Night, Station } from '../../server/tours/night.ts'
import { withOwnNames } from '../../server/tours/station-name.ts'
import type { Telescope } from '../../server/tours/telescope.ts'
import { datesPage } from '../../server/web/pages/dates.ts'
import { nightsPage, sitesPage } from '../../server/web/pages/lists.ts'
import { newcomersPage } from '../../server/web/pages/newcomers.ts'
import { nightFormPage } from '../../server/web/pages/night-form.ts'
import { objectsPage } from '../../server/web/pages/objects.ts'
import { programmePage } from '../../server/web/pages/programme.ts'
import { reportPage, reportPaper } from '../../server/web/pages/report.ts'
import { kitText, seenText } from '../../server/web/pages/season-text.ts'
import type { Viewer } from '../../server/web/pages/sheet.ts'
import { siteNames } from '../../server/web/pages/site-names.ts'
import { skyChoice } from '../../server/web/pages/sky-choice.ts'
import { madeLines } from '../../server/web/pages/start-made-lines.ts'
import { stationSheets } from '../../server/web/pages/station-sheets.ts'
import { telescopeNames, withRowNames } from '../../server/web/pages/telescope-names.ts'
import { timetable } from '../../server/web/pages/timetable.ts'
import type { Words } from '../../server/words/words.ts'
import { A_YEAR } from '../support/dates-data.ts'
import { A_LIST, A_SEASONAL, ONE_LISTED } from '../support/fake-things.ts'
import { A_NIGHT, A_SITE, A_TELESCOPE, AN_OBJECT } from '../support/field-data.ts'
import { A_LEARNING } from '../support/learning-data.ts'
import { ENGLISH, GERMAN, HOLDING, HOST, NAMES, TOUR } from '../support/page-data.ts'
import { A_REPORT } from '../support/report-pages.ts'
import { ANY_THING } from '../support/thing-pages.ts'

const [first] = A_NIGHT.stations
if (!first) throw new Error('The night of the tests has a station')
const TWIN: Telescope = { ...A_TELESCOPE, id: 'twin', mount: 'equatorial' }
const NIGHT: Night = { ...A_NIGHT, stations: [first, { ...first, id: 'station-2', name: 'Gate', telescope: TWIN }] }
const KIT = [A_TELESCOPE, TWIN]
const FAR = { ...A_SITE, id: 'far', latitudeDeg: -35.5 }
const SITES = [A_SITE, FAR]

const reader = (words: Words): Viewer => ({
  ...HOST,
  words,
  telescopeName: telescopeNames({ words, mayHost: true }, KIT, [NIGHT]),
  siteName: siteNames(words, SITES),
})
const LANGUAGES = [
  ['English', reader(ENGLISH), 'Old eight inch (pushed by hand)', 'Old eight inch (equatorial mount with a motor)'],
  ['German', reader(GERMAN), ...KIT.map(reader(GERMAN).telescopeName)],
] as [string, Viewer, string, string][]
const BLANK = { values: {}, problems: [] }

describe.each(LANGUAGES)('two telescopes of one name, in %s', (_language, viewer, one, two) => {
  const programme = (night: Night, by: 'telescope' | 'time') => {
    const told = { tour: TOUR, state: HOLDING, names: NAMES, newKey: () => 'key', missing: [], beside: null }
    return programmePage(viewer, { night, by, ...told })
  }

  it('are told apart, and by words of the language', () => {
    expect([one, two]).toEqual(
      ['altaz-hand', 'equatorial'].map((mount) => `${A_TELESCOPE.name} (${viewer.words.say(`kit.apart-${mount}`)})`),
    )
    expect(one).not.toBe(two)
  })

  it('but not where only one of them stands in the row', () => {
    const night = { ...NIGHT, stations: NIGHT.stations.slice(0, 1) }
    expect(timetable(viewer, night, TOUR, NAMES).rows.map(({ telescope }) => telescope)).toEqual([TWIN.name])
    expect(withRowNames(viewer, night).stations[0]?.telescope?.name).toBe(TWIN.name)
  })

  it('on the programme and in its time table', () => {
    const notes = programme(NIGHT, 'telescope').groups.map(({ note }) => note)
    expect(notes).toEqual([`${one}, ${first.operator}`, `${two}, ${first.operator}`])
    expect(timetable(viewer, NIGHT, TOUR, NAMES).rows.map(({ telescope }) => telescope)).toEqual([one, two])
  })

  it('in the report and on its paper', () => {
    const report = { ...A_REPORT, night: NIGHT, stations: NIGHT.stations }
    const page = reportPage(viewer, { report, names: NAMES, hasTour: true, state: BLANK })
    const paper = reportPaper(viewer, report, NAMES, { paper: 'a4', letters: 'normal' })
    for (const made of [page, paper]) {
      expect(JSON.stringify(made)).toContain(two)
      expect(JSON.stringify(made)).toContain(one)
    }
  })

  it('on the sheets of the stations and beside the staves of the score', () => {
    const night = withRowNames(viewer, NIGHT)
    const { sheets } = stationSheets(viewer, {
      ...{ night, tour: TOUR, isStale: false, checks: [], beside: [], names: NAMES },
    })
    expect(sheets.map(({ telescope }) => telescope)).toEqual([one, two])
    const labels = night.stations.map((station) =>
      labelOf(station, 20, viewer.words).map(({ lines }) => lines.join(' ')),
    )
    expect(labels).toEqual([
      [first.name, one],
      ['Gate', two],
    ])
  })

  it('on the page of newcomers, with the things to show, and after three lines', () => {
    const [known] = A_LEARNING.telescopes
    const telescopes = KIT.map(({ id, name }) => ({ ...A_LEARNING.site, ...known, telescopeId: id, name }))
    const subject = { site: A_SITE, learning: { ...A_LEARNING, telescopes }, inUse: undefined, trouble: null }
    expect(newcomersPage(viewer, subject).telescopes.map(({ name }) => name)).toEqual([one, two])
    const at = { ...ONE_LISTED, telescopes: KIT }
    expect(seenText(viewer, at, AN_OBJECT, { ...A_SEASONAL, telescopeId: 'twin' })).toContain(`: ${two}.`)
    expect(kitText(viewer, { telescopes: [TWIN] })).toContain(two)
    const lines = madeLines(viewer, { night: NIGHT, isTown: true }).map(({ line }) => line.text)
    expect(lines.slice(-2)).toEqual([one, two].map((name) => viewer.words.say('start.kit-kept', { name })))
  })

  it('where a night or a date is chosen', () => {
    const form = nightFormPage(viewer, {
      ...{ night: null, state: BLANK, halfHours: [], stationRows: 1, sites: SITES, telescopes: KIT, factors: [] },
    })
    const select = form.stations[0]?.fields.find(({ name }) => name === 'stations.0.telescopeId')
    expect(JSON.stringify(select)).toContain(two)
    const { year } = datesPage(viewer, { year: A_YEAR, months: [], sites: SITES, kit: KIT, thisMonth: '2026-11' })
    expect(year?.row.map(({ label }) => label)).toEqual([one, two])
  })
})

describe.each(LANGUAGES)('two sites of one name, in %s', (_language, viewer) => {
  const [near, far] = SITES.map(viewer.siteName) as [string, string]
  const isIn = (made: unknown) => [near, far].map((name) => JSON.stringify(made).includes(name))

  it('are told apart by where they lie, and by a number where that is one place', () => {
    expect([near, far].every((name) => name.startsWith(`${A_SITE.name} (`))).toBe(true)
    expect(near).not.toBe(far)
    const twice = [A_SITE, { ...A_SITE, id: 'again', name: ` ${A_SITE.name.toUpperCase()}` }]
    expect(twice.map(siteNames(viewer.words, twice))[1]).toMatch(/, (no\. 2|Nr\.\s2)\)$/)
    expect(siteNames(viewer.words, [A_SITE, { ...FAR, name: 'Hill' }])(A_SITE)).toBe(A_SITE.name)
  })

  it('wherever one is chosen', () => {
    const form = nightFormPage(viewer, {
      ...{ night: null, state: BLANK, halfHours: [], stationRows: 1, sites: SITES, telescopes: KIT, factors: [] },
    })
    expect(isIn(form.fields)).toEqual([true, true])
    const dates = { year: A_YEAR, months: [], sites: SITES, kit: KIT, thisMonth: '2026-11' }
    expect(isIn(datesPage(viewer, dates).year?.fields)).toEqual([true, true])
    const things = {
      query: ANY_THING,
      list: { ...A_LIST, things: [] },
      places: SITES,
      pictureOf: () => expect.unreachable(),
      thisMonth: '2026-11',
    }
    expect(isIn(objectsPage(viewer, things).whence)).toEqual([true, true])
    expect(isIn(skyChoice(viewer, { sites: SITES, nights: [], telescopeId: null, asked: undefined }).options)).toEqual([
      true,
      true,
    ])
  })

  it('in the lists of nights and of sites', () => {
    const nights = [NIGHT, { ...NIGHT, id: 'night-2', site: FAR }]
    expect(nightsPage(viewer, nights).nights.map(({ place }) => place)).toEqual([near, far])
    expect(sitesPage(viewer, SITES, []).sites.map(({ uses }) => uses.change?.label)).toEqual(
      [near, far].map((name) => viewer.words.say('page.change-it', { name })),
    )
  })
})

describe('stations of one row', () => {
  const named = (...names: string[]) =>
    withOwnNames(names.map((name, i): Station => ({ ...first, id: String(i), name }))).map(({ name }) => name)

  it('keep names that differ, and each get a number where they were called the same', () => {
    expect(named('Gate', 'Oak', '')).toEqual(['Gate', 'Oak', ''])
    expect(named('Dobsonian', 'Gate', ' dobsonian', 'Dobsonian 2')).toEqual([
      'Dobsonian 1',
      'Gate',
      'dobsonian 3',
      'Dobsonian 2',
    ])
    expect(named('x'.repeat(40), 'x'.repeat(40))).toEqual([`${'x'.repeat(38)} 1`, `${'x'.repeat(38)} 2`])
  })
})
