import type { ChosenDate } from '../../desk/dates.ts'
import { rulesInForce } from '../../tours/date-broken.ts'
import { wallClock } from '../../tours/hours.ts'
import type { Words } from '../../words/words.ts'
import { askedFor, dateHref } from './date-href.ts'
import { showpiecesText } from './date-months.ts'
import { darkText, howText, moonText, openText } from './date-text.ts'
import { kitText } from './season-text.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

interface Link {
  readonly href: string
  readonly text: string
}

export interface DatePage {
  readonly sheet: Sheet
  readonly title: string
  readonly place: string
  readonly verdict: string
  readonly factsLabel: string
  readonly facts: readonly { readonly label: string; readonly text: string }[]
  readonly rulesLabel: string
  readonly rules: readonly { readonly name: string; readonly text: string; readonly isBroken: boolean }[]
  readonly rulesEmpty: string | null
  readonly backUpLabel: string
  readonly backUp: { readonly text: string; readonly link: Link | null }
  /** The night from this date, for the host where it has public hours. */
  readonly make: Link | null
  readonly calendar: Link | null
  readonly noCalendar: string | null
  readonly ways: readonly Link[]
}

interface DateSubject {
  readonly date: ChosenDate
  readonly nameOf: (key: string) => string
}

/** One date in detail: the sky, every rule that is kept or broken, what stands in for it, and what to do with it. */
export function datePage(viewer: Viewer, { date, nameOf }: DateSubject): DatePage {
  const { words, mayHost } = viewer
  const { chosen, site } = date
  const title = words.date(chosen.date)
  const hasHours = chosen.opensAt !== null
  return {
    sheet: daySheet(viewer, title, 'nights'),
    title,
    place: words.say('dates.place-kit', { site: viewer.siteName(site), kit: kitText(viewer, date) }),
    verdict: verdictText(words, date),
    factsLabel: words.say('dates.facts'),
    facts: factsOf(words, date, nameOf),
    rulesLabel: words.say('dates.rules'),
    rules: rulesOf(words, date),
    rulesEmpty: rulesInForce(date.rules).length === 0 ? words.say('dates.no-rules') : null,
    backUpLabel: words.say('dates.back-up'),
    backUp: backUpOf(words, date),
    make: mayHost && hasHours ? { href: nightHref(date), text: words.say('dates.make') } : null,
    calendar: hasHours
      ? { href: `/dates/${chosen.date}/calendar.ics?${askedFor(date)}`, text: words.say('dates.calendar') }
      : null,
    noCalendar: hasHours ? null : words.say('dates.no-calendar'),
    ways: waysOf(words, date),
  }
}

function verdictText(words: Words, { chosen, rules }: ChosenDate): string {
  const count = chosen.broken.length
  if (count === 0) return words.say('dates.none-broken')
  return words.say('dates.breaks', { count, all: rulesInForce(rules).length })
}

function factsOf(words: Words, { chosen, site }: ChosenDate, nameOf: DateSubject['nameOf']): DatePage['facts'] {
  const { sunsetAt, clocksMin, planets } = chosen
  const fact = (name: string, text: string) => ({ label: words.say(`dates.fact-${name}`), text })
  return [
    ...(sunsetAt === null ? [] : [fact('sunset', words.time(sunsetAt, site.zone))]),
    fact('hours', openText(words, chosen, site.zone)),
    fact('dark', darkText(words, chosen, site.zone)),
    fact('moon', moonText(words, chosen, site.zone)),
    fact('planets', planets.length === 0 ? words.say('dates.none') : words.list(planets.map(nameOf))),
    fact('showpieces', showpiecesText(words, chosen, nameOf)),
    ...(clocksMin === 0 ? [] : [fact('clocks', clocksText(words, clocksMin))]),
  ]
}

const clocksText = (words: Words, clocksMin: number): string =>
  words.say(clocksMin > 0 ? 'dates.clocks-forward' : 'dates.clocks-back', { minutes: Math.abs(clocksMin) })

function rulesOf(words: Words, { chosen, rules }: ChosenDate): DatePage['rules'] {
  return rulesInForce(rules).map((rule) => {
    const broken = chosen.broken.filter((found) => found.rule === rule)
    return {
      name: words.say(`dates.rule-${rule}`),
      text:
        broken.length === 0
          ? words.say('dates.kept')
          : words.say('dates.broken-how', {
              how: words.list(broken.map((found) => howText(words, found, chosen.date))),
            }),
      isBroken: broken.length > 0,
    }
  })
}

function backUpOf(words: Words, date: ChosenDate): DatePage['backUp'] {
  const { backUp, rules } = date
  if (backUp === null) return { text: words.say('dates.no-back-up', { count: rules.backUpDays }), link: null }
  const broken = backUp.broken.map(({ rule }) => words.say(`dates.rule-${rule}`))
  const code = broken.length === 0 ? 'dates.back-up-clean' : 'dates.back-up-breaks'
  return {
    text: words.say(code, { count: rules.backUpDays, names: words.list(broken) }),
    link: { href: dateHref(date, backUp.date), text: words.date(backUp.date) },
  }
}

/** The form of a new night, filled in with this date, its hours and its row. */
function nightHref({ chosen, site, rules, telescopes }: ChosenDate): string {
  const opens = chosen.opensAt === null ? rules.opensFrom : wallClock(chosen.opensAt, site.zone)
  const query = new URLSearchParams({ siteId: site.id, date: chosen.date, opens, closes: rules.bedtime })
  for (const { id } of telescopes) query.append('row', id)
  return `/nights/new?${query}`
}

const DAY_MS = 86_400_000

function waysOf(words: Words, date: ChosenDate): readonly Link[] {
  const { chosen } = date
  const other = (days: number) => new Date(Date.parse(chosen.date) + days * DAY_MS).toISOString().slice(0, 10)
  return [
    { href: dateHref(date, other(-1)), text: words.say('dates.day-before') },
    { href: dateHref(date, other(1)), text: words.say('dates.day-after') },
    { href: `/dates?${askedFor(date)}&from=${chosen.date.slice(0, 7)}`, text: words.say('dates.back') },
  ]
}
