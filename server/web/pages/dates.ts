import type { YearOfDates } from '../../desk/dates.ts'
import type { Site } from '../../tours/site.ts'
import type { Telescope } from '../../tours/telescope.ts'
import type { Words } from '../../words/words.ts'
import { askedFor, dateHref } from './date-href.ts'
import type { DateMonth } from './date-months.ts'
import { rulesTexts } from './date-text.ts'
import { type Field, formFields } from './form.ts'
import { kitText, monthText } from './season-text.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

interface Link {
  readonly href: string
  readonly text: string
}

interface RowTick {
  readonly id: string
  readonly value: string
  readonly label: string
  readonly isChecked: boolean
}

export interface DatesPage {
  readonly sheet: Sheet
  readonly title: string
  readonly lead: string
  /** That there is no site yet, and what to do; null when there is one. */
  readonly empty: { readonly text: string; readonly link: Link | null } | null
  readonly year: YearPart | null
}

interface YearPart {
  readonly action: string
  readonly choiceLabel: string
  readonly fields: readonly Field[]
  readonly rowLabel: string
  readonly rowHint: string
  readonly row: readonly RowTick[]
  readonly showText: string
  readonly standing: string
  readonly rulesLabel: string
  readonly rules: readonly string[]
  readonly change: Link | null
  /** Which months are still being worked out; null when all are there. */
  readonly progress: { readonly text: string; readonly link: Link } | null
  readonly count: string
  readonly clean: readonly Link[]
  readonly yearLabel: string
  readonly legend: string
  readonly months: readonly DateMonth[]
}

interface DatesSubject {
  /** Null while there is no site. */
  readonly year: YearOfDates | null
  readonly sites: readonly Site[]
  readonly kit: readonly Telescope[]
  /** The year in words, as `dateMonths` gives it. */
  readonly months: readonly DateMonth[]
  /** The month `YYYY-MM` that it is at the site. */
  readonly thisMonth: string
}

/** The year of a site: every date with what the sky does and the rules that it breaks. */
export function datesPage(viewer: Viewer, subject: DatesSubject): DatesPage {
  const { words, mayHost } = viewer
  const { year } = subject
  const add = mayHost ? { href: '/sites/new', text: words.say('page.new-site') } : null
  return {
    sheet: daySheet(viewer, words.say('dates.title'), 'nights', ['page.js', 'dates.js']),
    title: words.say('dates.title'),
    lead: words.say('dates.lead'),
    empty: year === null ? { text: words.say(mayHost ? 'dates.no-site' : 'dates.no-site-visitor'), link: add } : null,
    year: year === null ? null : yearPart(viewer, { ...subject, year }),
  }
}

function yearPart(viewer: Viewer, subject: DatesSubject & { readonly year: YearOfDates }): YearPart {
  const { words, telescopeName } = viewer
  const { year, kit } = subject
  const dates = year.months.flatMap(({ dates: known }) => known ?? [])
  const clean = dates.filter(({ broken }) => broken.length === 0)
  return {
    action: '/dates',
    choiceLabel: words.say('dates.choice'),
    ...formOf(viewer, subject),
    rowLabel: words.say('dates.row'),
    rowHint: words.say(kit.length > 0 ? 'dates.row-hint' : 'dates.row-none'),
    row: kit.map(({ id, name }) => ({
      id: `row-${id}`,
      value: id,
      label: telescopeName({ id, name }),
      isChecked: year.telescopes.some((telescope) => telescope.id === id),
    })),
    showText: words.say('dates.show'),
    standing: standingText(viewer, year),
    rulesLabel: words.say('dates.rules-of', { site: viewer.siteName(year.site) }),
    rules: rulesTexts(words, year.rules),
    change: viewer.mayHost
      ? { href: `/sites/${year.site.id}/date-rules`, text: words.say('dates.change-rules') }
      : null,
    progress: progressOf(words, year),
    count: words.say('dates.count', { count: clean.length, total: words.number(dates.length) }),
    clean: clean.map(({ date }) => ({ href: dateHref(year, date), text: words.date(date) })),
    yearLabel: words.say('dates.year'),
    legend: words.say('dates.legend'),
    months: subject.months,
  }
}

const standingText = (viewer: Viewer, year: YearOfDates): string =>
  viewer.words.say('dates.standing', {
    site: viewer.siteName(year.site),
    kit: kitText(viewer, year),
    from: monthText(viewer.words, year.from),
    to: monthText(viewer.words, year.months.at(-1)?.month ?? year.from),
  })

/** Which months are missing, the first to the last of them, and the way to look again. */
function progressOf(words: Words, year: YearOfDates): YearPart['progress'] {
  const missing = year.months.filter(({ dates }) => dates === null)
  const [first, last] = [missing[0], missing.at(-1)]
  if (first === undefined || last === undefined) return null
  return {
    text: words.say(first === last ? 'dates.progress-one' : 'dates.progress', {
      from: monthText(words, first.month),
      to: monthText(words, last.month),
      done: year.months.length - missing.length,
      all: year.months.length,
    }),
    link: { href: yearHref(year), text: words.say('dates.look-again') },
  }
}

function formOf(
  { words, siteName }: Viewer,
  { year, sites, thisMonth }: DatesSubject & { readonly year: YearOfDates },
) {
  const { choice } = formFields(words, { values: { site: year.site.id, from: year.from }, problems: [] })
  const [now = 0, month = 1] = thisMonth.split('-').map(Number)
  const coming = Array.from({ length: COMING }, (_, i) => {
    const later = month - 1 + i
    return `${now + Math.floor(later / 12)}-${String((later % 12) + 1).padStart(2, '0')}`
  })
  const months = coming.includes(year.from) ? coming : [year.from, ...coming].sort()
  return {
    fields: [
      choice(
        'site',
        { label: words.say('dates.site') },
        sites.map((site) => ({ value: site.id, text: siteName(site) })),
      ),
      choice(
        'from',
        { label: words.say('dates.from') },
        months.map((value) => ({ value, text: monthText(words, value) })),
      ),
    ],
  }
}

/** Months to begin with that are offered. */
const COMING = 24

const yearHref = (year: YearOfDates): string => `/dates?${askedFor(year)}&from=${year.from}`
