import type { MonthOfDates, YearOfDates } from '../../desk/dates.ts'
import { weekdayOf } from '../../tours/date-broken.ts'
import type { JudgedDate } from '../../tours/date-choice.ts'
import type { Words } from '../../words/words.ts'
import { dateHref } from './date-href.ts'
import { brokenText, darkText, moonText, weekdayNames } from './date-text.ts'
import { monthText } from './season-text.ts'

/** A night in a line. */
interface DateRow {
  readonly href: string
  readonly day: string
  readonly weekday: string
  readonly dark: string
  readonly moon: string
  readonly planets: string
  /** How many showpieces are seen, and which; '' where there are none. */
  readonly showpieces: string
  readonly showpieceNames: string
  readonly broken: readonly string[]
  /** That it breaks no rule; null when it breaks some. */
  readonly noneBroken: string | null
}

/** A day in the sheet of a month. */
interface DateCell {
  readonly href: string
  readonly day: number
  readonly label: string
  /** Rules that it breaks, `-` for none. */
  readonly mark: string
  readonly isClean: boolean
}

export interface DateMonth {
  readonly id: string
  readonly name: string
  readonly heads: readonly { readonly short: string; readonly long: string }[]
  /** Weeks of seven cells; null where the day is of another month. */
  readonly weeks: readonly (readonly (DateCell | null)[])[]
  /** That it is still being worked out; null when it is there. */
  readonly waiting: string | null
  readonly columns: readonly string[]
  readonly rows: readonly DateRow[]
}

const DAYS = [1, 2, 3, 4, 5, 6, 7]
const COLUMNS = ['night', 'dark', 'moon', 'planets', 'showpieces', 'rules'] as const

/** The months of the year in their order, one at a time, so that others may be answered in between; one that is not there yet has nothing but its name. */
export function* dateMonths(words: Words, year: YearOfDates, nameOf: (key: string) => string): Generator<DateMonth> {
  const weekdays = weekdayNames(words, DAYS)
  const heads = weekdays.map((long) => ({ short: long.slice(0, 2), long }))
  const columns = COLUMNS.map((column) => words.say(`dates.column-${column}`))
  for (const month of year.months) {
    const dates = month.dates ?? []
    const cells = dates.map((date) => cellOf(words, year, date))
    yield {
      id: `month-${month.month}`,
      name: monthText(words, month.month),
      heads,
      weeks: weeksOf(cells, month),
      waiting: month.dates === null ? words.say('dates.waiting') : null,
      columns,
      rows: dates.map((date) => ({
        ...rowOf(words, year, date, nameOf),
        weekday: weekdays[weekdayOf(date.date) - 1] ?? '',
      })),
    }
  }
}

function cellOf(words: Words, year: YearOfDates, { date, broken }: JudgedDate): DateCell {
  const count = broken.length
  const names = words.list(broken.map(({ rule }) => words.say(`dates.rule-${rule}`)))
  const day = Number(date.slice(8))
  return {
    href: dateHref(year, date),
    day,
    label: words.say(count === 0 ? 'dates.cell-clean' : 'dates.cell', { count, day, names }),
    mark: count === 0 ? '–' : String(count),
    isClean: count === 0,
  }
}

function weeksOf(cells: readonly DateCell[], { month }: MonthOfDates): readonly (readonly (DateCell | null)[])[] {
  const blanks = weekdayOf(`${month}-01`) - 1
  const all = [...Array.from({ length: blanks }, () => null), ...cells]
  const weeks = Math.ceil(all.length / DAYS.length)
  return cells.length === 0
    ? []
    : Array.from({ length: weeks }, (_, week) => DAYS.map((day) => all[week * DAYS.length + day - 1] ?? null))
}

function rowOf(
  words: Words,
  year: YearOfDates,
  date: JudgedDate,
  nameOf: (key: string) => string,
): Omit<DateRow, 'weekday'> {
  const { zone } = year.site
  return {
    href: dateHref(year, date.date),
    day: String(Number(date.date.slice(8))),
    dark: darkText(words, date, zone),
    moon: moonText(words, date, zone),
    planets: date.planets.length === 0 ? words.say('dates.none') : words.list(date.planets.map(nameOf)),
    showpieces: date.showpieces.length === 0 ? words.say('dates.none') : words.number(date.showpieces.length),
    showpieceNames: words.list(date.showpieces.map(nameOf)),
    broken: date.broken.map((broken) => brokenText(words, broken, date.date)),
    noneBroken: date.broken.length === 0 ? words.say('dates.none-broken') : null,
  }
}

/** How many showpieces there are, and which. */
export const showpiecesText = (words: Words, { showpieces }: JudgedDate, nameOf: (key: string) => string): string =>
  showpieces.length === 0
    ? words.say('dates.none')
    : words.say('dates.showpieces', { count: showpieces.length, names: words.list(showpieces.map(nameOf)) })
