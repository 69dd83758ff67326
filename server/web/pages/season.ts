import { barChart } from '../../drawings/bar-chart.ts'
import type { Svg } from '../../drawings/svg.ts'
import type { Season } from '../../tours/report-season.ts'
import type { Words } from '../../words/words.ts'
import type { PaperLink } from './paper.ts'
import { reportHref } from './report-form.ts'
import { MISSING, minutesText } from './report-words.ts'
import type { Names } from './say.ts'
import { daySheet, type Sheet, type SheetLink, type Viewer } from './sheet.ts'
import { rowOf, type Table, type TableRow } from './table.ts'

/** A picture with its numbers beside it. */
interface SeasonPicture {
  readonly label: string
  readonly drawing: Svg
  readonly table: Table
}

export interface SeasonPage {
  readonly sheet: Sheet
  readonly title: string
  readonly lead: string
  readonly years: readonly SheetLink[]
  readonly yearsLabel: string
  readonly table:
    | (Omit<Table, 'rows'> & { readonly rows: readonly (TableRow & { readonly href: string | null })[] })
    | null
  readonly notes: readonly string[]
  readonly pictures: readonly SeasonPicture[]
  readonly ways: readonly PaperLink[]
}

interface SeasonSubject {
  readonly season: Season
  readonly years: readonly number[]
  readonly names: Names
}

const seasonHref = (year: number): string => `/season?year=${year}`

/** Several nights side by side, in numbers and pictures; people's names are the host's alone. */
export function seasonPage(viewer: Viewer, { season, years, names }: SeasonSubject): SeasonPage {
  const { words, mayHost } = viewer
  const isEmpty = season.nights.length === 0
  return {
    sheet: daySheet(viewer, words.say('season.title'), 'nights'),
    title: words.say('season.title'),
    lead: isEmpty
      ? words.say(mayHost ? 'season.nothing-host' : 'season.nothing')
      : words.say('season.lead', { year: season.year, count: season.nights.length }),
    years: years.map((year) => ({ href: seasonHref(year), text: String(year), isHere: year === season.year })),
    yearsLabel: words.say('season.years'),
    table: isEmpty ? null : nightsTable(words, season, mayHost),
    notes: isEmpty ? [] : [words.say('report.looks-are-not-people'), countedText(words, season)],
    pictures: isEmpty ? [] : [byTarget(words, season, names), byHour(words, season), byMonth(words, season)],
    ways: isEmpty
      ? [{ href: '/nights', text: words.say('season.to-nights') }]
      : [{ href: `/season.csv?year=${season.year}`, text: words.say('season.csv') }],
  }
}

const countedText = (words: Words, { nights, countedNights }: Season): string =>
  words.say(countedNights === nights.length ? 'season.all-counted' : 'season.some-counted', {
    counted: countedNights,
    nights: nights.length,
  })

function nightsTable(words: Words, season: Season, mayHost: boolean): NonNullable<SeasonPage['table']> {
  const number = (count: number): string => words.number(count)
  const heads = [
    'date',
    'place',
    'looks',
    'adults',
    'children',
    'volunteers',
    'targets',
    ...(mayHost ? ['operator'] : []),
  ]
  return {
    caption: words.say('season.nights'),
    head: rowOf([words.say('season.head-night'), ...heads.map((key) => words.say(`report.head-${key}`))]),
    rows: season.nights.map(({ nightId, title, date, place, looks, came, volunteerMin, targets, operators }) => ({
      name: title,
      href: mayHost ? reportHref({ id: nightId }) : null,
      cells: [
        words.date(date),
        place,
        number(looks),
        came ? number(came.adults) : MISSING,
        came ? number(came.children) : MISSING,
        minutesText(words, volunteerMin),
        number(targets),
        ...(mayHost ? [words.list(operators)] : []),
      ],
    })),
    foot: {
      name: words.say('report.total'),
      cells: [
        '',
        '',
        number(season.looks),
        number(season.came.adults),
        number(season.came.children),
        minutesText(words, season.volunteerMin),
        '',
        ...(mayHost ? [''] : []),
      ],
    },
  }
}

/** So many targets have a bar; all of them are in the table. */
const MOST_BARS = 12

function byTarget(words: Words, { looksByTarget, looks }: Season, names: Names): SeasonPicture {
  const label = words.say('season.by-target')
  const rows = looksByTarget.map((one) => ({ name: names.nameOf(one.targetKey), looks: one.looks }))
  return {
    label,
    drawing: looksChart(words, label, rows.slice(0, MOST_BARS)),
    table: looksTable(words, label, 'target', rows, looks),
  }
}

function byHour(words: Words, { looksByHour, looks }: Season): SeasonPicture {
  const label = words.say('season.by-hour')
  const rows = looksByHour.map((one) => ({
    name: words.say('season.hour', { from: two(one.hour), to: two((one.hour + 1) % 24) }),
    looks: one.looks,
  }))
  return { label, drawing: looksChart(words, label, rows), table: looksTable(words, label, 'time', rows, looks) }
}

const two = (hour: number): string => String(hour).padStart(2, '0')

interface LooksRow {
  readonly name: string
  readonly looks: number
}

const looksChart = (words: Words, title: string, rows: readonly LooksRow[]): Svg =>
  barChart({
    title,
    legend: [],
    rows: rows.map(({ name, looks }) => ({
      label: name,
      said: words.number(looks),
      parts: [{ value: looks, fill: 'solid' }],
    })),
  }).svg

const looksTable = (words: Words, label: string, head: string, rows: readonly LooksRow[], looks: number): Table => ({
  caption: words.say('season.numbers', { label }),
  head: rowOf([head, 'looks'].map((key) => words.say(`report.head-${key}`))),
  rows: rows.map((row) => ({ name: row.name, cells: [words.number(row.looks)] })),
  foot: { name: words.say('report.total'), cells: [words.number(looks)] },
})

function byMonth(words: Words, { visitorsByMonth, came }: Season): SeasonPicture {
  const label = words.say('season.by-month')
  const number = (count: number): string => words.number(count)
  const drawing = barChart({
    title: label,
    legend: [
      { fill: 'solid', text: words.say('report.head-adults') },
      { fill: 'striped', text: words.say('report.head-children') },
    ],
    rows: visitorsByMonth.map(({ month, adults, children }) => ({
      label: words.month(month),
      said: number(adults + children),
      parts: [
        { value: adults, fill: 'solid' },
        { value: children, fill: 'striped' },
      ],
    })),
  }).svg
  const all = came.adults + came.children
  return {
    label,
    drawing,
    table: {
      caption: words.say('season.numbers', { label }),
      head: rowOf(['month', 'nights', 'adults', 'children', 'people'].map((key) => words.say(`report.head-${key}`))),
      rows: visitorsByMonth.map(({ month, nights, adults, children }) => ({
        name: words.month(month),
        cells: [nights, adults, children, adults + children].map(number),
      })),
      foot: {
        name: words.say('report.total'),
        cells: [visitorsByMonth.reduce((sum, { nights }) => sum + nights, 0), came.adults, came.children, all].map(
          number,
        ),
      },
    },
  }
}
