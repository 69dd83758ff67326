import { nightHours } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Answer, Visited } from './odd-clock-round.ts'
import type { SunWay } from './odd-clocks.ts'
import { halfHoursBetween, plainClock, saidClock, saidDate } from './other-clock.ts'
import { faultsOfJson, faultsOfPage, faultsOfText, wordsOf } from './said-plainly.ts'

/** Why there is no dark, or no Sun, in the words of the pages. */
const WHY: Readonly<Record<SunWay, RegExp>> = {
  dark: /./,
  'stays-up': /Sun (first: it )?does not set/,
  'stays-down': /Sun does not rise/,
  twilight: /twilight lasts all night/,
}
/** Pages that tell of dusk by their own words, and pages that must say why there is nothing to see where the Sun stays up. */
const OF_DUSK = /\b(sunset|(first|second) dusk|full dark)\b/i
const OF_EMPTY =
  /\/(nights\/[^/]+|programme|check|set-up|align|aloud|dates\/.*|print\/(tonight|run-sheet|sheets|check-sheet|cards|handout|score|eyepiece|set-up-sheet|aloud|sign|teacher-sheet))$/
/** Its lines are the words of the host. */
const OF_HOST = /\/checklists\/edit$/
/** The board and the papers of a night bear its date. */
const BEARS_DATE = /^\/nights\/[^/]+(\/print\/.*)?$/
const DAY_MS = 86_400_000
const FULL_DATE = /\b\w+day, \w+ \d{1,2}, 20\d\d\b/g

/** Everything that is wrong with the answers about one night at the moment to which its clock was put. */
export async function faultsOfNight(visited: Visited, skip: RegExp): Promise<readonly string[]> {
  const said: string[] = []
  for (const url of visited.addresses) {
    if (skip.test(url)) continue
    const answer = await visited.get(url)
    for (const fault of faultsOf(visited, answer)) said.push(`${url}: ${fault}`)
  }
  return said
}

function faultsOf(visited: Visited, answer: Answer): readonly string[] {
  const { url, status, type, body } = answer
  if (status === 422 && url.includes('/calendar.ics')) return isNothingToPlan(body) ? [] : ['no reason for no calendar']
  if (status !== 200) return [`status ${status}`]
  const { zone } = visited.night.site
  if (type.startsWith('application/json')) return faultsOfJson(JSON.parse(body), (at) => plainClock(at, zone))
  if (type.startsWith('text/calendar'))
    return [...faultsOfText(body.replaceAll('\r\n ', '')), ...faultsOfCalendar(body, zone)]
  return type.startsWith('text/html') ? [...faultsOfPage(body), ...faultsOfWords(visited, url, body)] : []
}

const isNothingToPlan = (body: string): boolean => wordsOf(body).includes('There is nothing to plan on this date')

function faultsOfWords({ odd, night }: Visited, url: string, body: string): readonly string[] {
  const words = wordsOf(body)
  const isTold =
    (OF_DUSK.test(words) && !OF_HOST.test(url)) || (odd.sun === 'stays-up' && OF_EMPTY.test(url.split('?')[0] ?? ''))
  const isOfNight = url.includes(night.id)
  return [
    ...(isOfNight && isTold && !WHY[odd.sun].test(words.replaceAll('\n', ' '))
      ? ['does not say why there is no dark']
      : []),
    ...(isOfNight && odd.sun === 'dark' && /\bnot tonight\b/.test(words)
      ? ['lacks a dusk on a night that has them all']
      : []),
    ...(isOfNight ? strangeDates(night, words, BEARS_DATE.test(url)) : []),
  ]
}

/** Dates in full that are neither that of the night nor of the days next to it; and its own where a page bears it. */
function strangeDates(night: Night, words: string, bearsDate: boolean): readonly string[] {
  const { opensAt } = nightHours(night)
  const own = saidDate(opensAt, night.site.zone)
  const noonMs = Date.parse(`${night.date}T12:00Z`)
  const near = [-DAY_MS, DAY_MS].map((ms) => saidDate(new Date(noonMs + ms), 'UTC'))
  const found = [...new Set(words.match(FULL_DATE) ?? [])]
  const strange = found.filter((date) => date !== own && !near.includes(date))
  return [
    ...strange.map((date) => `tells of ${date}`),
    ...(bearsDate && found.length > 0 && !found.includes(own) ? [`does not tell of ${own}`] : []),
  ]
}

/** The public hours of each event, as its words and as its instants give them. */
function faultsOfCalendar(body: string, zone: string): readonly string[] {
  const events = body.replaceAll('\r\n ', '').split('BEGIN:VEVENT').slice(1)
  return events.flatMap((event) => {
    const hours = /Public hours (\S+) to (\d\d:\d\d)/.exec(event)
    const [starts, ends] = ['DTSTART', 'DTEND'].map((name) => instantOf(event, name))
    const told = hours && starts && ends && `${plainClock(starts, zone)} to ${plainClock(ends, zone)}`
    return hours && `${hours[1]} to ${hours[2]}` !== told ? [`says ${hours[0]}, and is ${told}`] : []
  })
}

function instantOf(event: string, name: string): Date | null {
  const [, y, m, d, h, min, s] =
    new RegExp(`${name}:(\\d{4})(\\d\\d)(\\d\\d)T(\\d\\d)(\\d\\d)(\\d\\d)Z`).exec(event) ?? []
  return y === undefined ? null : new Date(`${y}-${m}-${d}T${h}:${min}:${s}Z`)
}

/** What the pages say of when things are, beside the same instants by another reckoning. */
export async function timesOf({ night, tour, desk, get }: Visited) {
  const { opensAt, closesAt } = nightHours(night)
  const { zone } = night.site
  const page = async (place: string) => (await get(`/nights/${night.id}${place}`)).body
  const [board, check, setUp, run] = [
    await page(''),
    await page('/check'),
    await page('/set-up'),
    await page('/print/run-sheet'),
  ]
  const starts = [...new Set(tour.stops.map(({ startsAt }) => startsAt.getTime()))].sort((a, b) => a - b)
  const setUpTimes = (await desk.alignment.setUp(night.id)).times
  const inOrder = (body: string, pattern: RegExp) => [...body.matchAll(pattern)].map(([, time]) => time)
  return {
    said: {
      heads: inOrder(board, /<th scope="col"[^>]*>\s*((?:second )?\d\d:\d\d)/g),
      hours: /Open to the public<\/b> ([^<]+)</.exec(board)?.[1],
      stops: tour.stops.map((stop) => wordsOf(board).includes(spanOf(stop.startsAt, stop.endsAt, zone))),
      checks: inOrder(check, /check\?at&#x3D;[^>]+>([^<]+)</g),
      setUp: inOrder(setUp, /<li[^>]*><b>([^<]+)<\/b>/g),
      run: inOrder(run, /<th scope="rowgroup"[^>]*>([^<]+)</g),
    },
    expected: {
      heads: [
        saidClock(opensAt, zone),
        ...halfHoursBetween(new Date(opensAt.getTime() + 1), new Date(closesAt.getTime() - 1), night),
      ],
      hours: spanOf(opensAt, closesAt, zone),
      stops: tour.stops.map(() => true),
      checks: halfHoursBetween(opensAt, closesAt, night),
      setUp: setUpTimes.map(({ at }) => saidClock(at, zone)),
      run: starts.map((ms) => saidClock(new Date(ms), zone)),
    },
  }
}

const spanOf = (fromAt: Date, toAt: Date, zone: string): string =>
  `${saidClock(fromAt, zone)} to ${saidClock(toAt, zone)}`
