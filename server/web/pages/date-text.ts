import type { Broken } from '../../tours/date-broken.ts'
import type { DateFacts } from '../../tours/date-facts.ts'
import type { DateRules } from '../../tours/date-rules.ts'
import type { Words } from '../../words/words.ts'
import { phaseKey } from './moon.ts'
import { monthsText } from './season-text.ts'

/** How many hours and minutes, `2 h 5 min`. */
export function hoursText(words: Words, minutes: number): string {
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60]
  if (hours === 0) return words.say('dates.min', { minutes: rest })
  return words.say(rest === 0 ? 'dates.h' : 'dates.h-min', { hours, minutes: rest })
}

/** The public hours, or that there are none. */
export const openText = (words: Words, { opensAt, bedAt }: DateFacts, zone: string): string =>
  opensAt === null
    ? words.say('dates.no-hours')
    : words.say('dates.hours', { opens: words.time(opensAt, zone), closes: words.time(bedAt, zone) })

/** How long it is dark before bedtime and from when, or why it is not. */
export function darkText(words: Words, facts: DateFacts, zone: string): string {
  const { darkMin, duskAt, opensAt, noDark, sunsetAt } = facts
  if (noDark !== null) {
    const at = noDark === 'sun-late' ? sunsetAt : duskAt
    const late = noDark === 'sun-late' && at === null ? 'dates.no-dark-sun-late-open' : `dates.no-dark-${noDark}`
    return words.say(late, { time: at === null ? '' : words.time(at, zone) })
  }
  const hours = hoursText(words, darkMin)
  const isAll = duskAt === null || (opensAt !== null && duskAt <= opensAt)
  const dark = isAll
    ? words.say('dates.dark-all', { hours })
    : words.say('dates.dark-from', { hours, time: words.time(duskAt, zone) })
  return facts.isPolarNight ? `${dark} ${words.say('dates.polar-night')}` : dark
}

/** Phase in words, height and set in the public hours. */
export function moonText(words: Words, { moon, opensAt }: DateFacts, zone: string): string {
  const phase = words.say(phaseKey(moon.litFraction, moon.isWaxing))
  if (opensAt === null) return words.say('dates.moon-only', { phase })
  if (moon.highestDeg < 0) return words.say('dates.moon-down', { phase })
  const up = words.say('dates.moon-up', { phase, degrees: Math.round(moon.highestDeg) })
  const path = [
    ...(moon.risesAt ? [{ at: moon.risesAt, code: 'dates.moon-rises' }] : []),
    ...(moon.setsAt ? [{ at: moon.setsAt, code: 'dates.moon-sets' }] : []),
  ].sort((a, b) => a.at.getTime() - b.at.getTime())
  return [up, ...path.map(({ at, code }) => words.say(code, { time: words.time(at, zone) }))].join(', ')
}

/** A rule that a date breaks, by its name and how. */
export function brokenText(words: Words, broken: Broken, date: string): string {
  const name = words.say(`dates.rule-${broken.rule}`)
  return words.say('dates.broken', { name, how: howText(words, broken, date) })
}

/** How a date breaks a rule, without the rule's name. */
export function howText(words: Words, broken: Broken, date: string): string {
  switch (broken.rule) {
    case 'weekday':
      return words.weekday(date)
    case 'season':
      return words.month(Number(date.slice(5, 7)))
    case 'dark':
      return words.say('dates.how-dark', {
        dark: hoursText(words, broken.darkMin),
        need: hoursText(words, broken.needMin),
      })
    case 'apart':
      return apartText(words, broken)
    case 'first-quarter':
    case 'after-new':
    case 'near-full':
      return daysText(words, broken.days)
    default:
      return broken.name || words.say('dates.how-busy')
  }
}

function apartText(words: Words, { title, days }: Extract<Broken, { rule: 'apart' }>): string {
  if (days === 0) return words.say('dates.how-same', { title })
  return words.say(days > 0 ? 'dates.how-before' : 'dates.how-after', { title, count: Math.abs(days) })
}

/** Whole days from the quarter of the Moon that the rule names. */
function daysText(words: Words, days: number): string {
  const count = Math.round(Math.abs(days))
  if (count === 0) return words.say('dates.how-that-day')
  return words.say(days > 0 ? 'dates.how-days-after' : 'dates.how-days-before', { count })
}

/** What a host asks of a date at a site, a sentence a rule. */
export function rulesTexts(words: Words, rules: DateRules): readonly string[] {
  const { kind, weekdays, months, isMoonRuled, moonDays, fullDays, darkHours, weeksApart, backUpDays } = rules
  const busy = (['holiday', 'club', 'event'] as const).filter((list) => rules[list].length > 0)
  return [
    words.say(`dates.kind-says-${kind}`),
    words.say('dates.says-hours', { minutes: rules.afterSunsetMin, opens: rules.opensFrom, bedtime: rules.bedtime }),
    ...(darkHours > 0 ? [words.say('dates.says-dark', { hours: hoursText(words, Math.round(darkHours * 60)) })] : []),
    ...(weekdays.length > 0
      ? [words.say('dates.says-weekdays', { days: words.list(weekdayNames(words, weekdays)) })]
      : []),
    ...(months.length > 0 ? [words.say('dates.says-months', { months: monthsText(words, months) })] : []),
    ...(isMoonRuled ? [words.say(`dates.says-moon-${kind}`, { days: moonDays, full: fullDays })] : []),
    ...(weeksApart > 0 ? [words.say('dates.says-apart', { count: weeksApart })] : []),
    ...busy.map((list) => words.say(`dates.says-${list}`, { count: rules[list].length })),
    words.say('dates.says-back-up', { count: backUpDays }),
  ]
}

/** 1 January 2024 was a Monday. */
export const weekdayNames = (words: Words, days: readonly number[]): readonly string[] =>
  days.map((day) => words.weekday(`2024-01-0${day}`))
