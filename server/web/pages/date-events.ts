import type { ChosenDate } from '../../desk/dates.ts'
import { invalid } from '../../errors.ts'
import type { JudgedDate } from '../../tours/date-choice.ts'
import { setUpTimes } from '../../tours/set-up-times.ts'
import type { CalendarEvent } from '../../words/calendar.ts'
import type { Words } from '../../words/words.ts'
import { showpiecesText } from './date-months.ts'
import { brokenText, darkText, moonText, openText } from './date-text.ts'

/** A date with public hours. */
type Open = JudgedDate & { readonly opensAt: Date }

const isOpen = (date: JudgedDate | null): date is Open => date !== null && date.opensAt !== null

/** The night of a date, its setting up, and the back-up date as tentative; an invalid Fault where there are no public hours. */
export function dateEvents(words: Words, date: ChosenDate, nameOf: (key: string) => string): readonly CalendarEvent[] {
  const { chosen, backUp, site } = date
  if (!isOpen(chosen)) throw invalid([{ field: 'date', key: 'dates.no-calendar' }])
  const event = (name: string, on: Open, given: Pick<CalendarEvent, 'startsAt' | 'endsAt' | 'description'>) => ({
    ...given,
    uid: `${chosen.date}-${name}-${site.id}@duskrow`,
    summary: words.say(`dates.event-${name}`),
    location: site.name,
    place: site,
    status: on === chosen ? ('CONFIRMED' as const) : ('TENTATIVE' as const),
  })
  const hours = ({ opensAt, bedAt }: Open) => ({ startsAt: opensAt, endsAt: bedAt })
  const night = event('night', chosen, { ...hours(chosen), description: aboutText(words, date, chosen, nameOf) })
  const setUp = event('set-up', chosen, {
    startsAt: arrivalOf(chosen),
    endsAt: chosen.opensAt,
    description: words.say('dates.event-set-up-about', { time: words.time(chosen.opensAt, site.zone) }),
  })
  if (!isOpen(backUp)) return [setUp, night]
  const only = words.say('dates.event-back-up-about', { date: words.date(chosen.date) })
  const description = `${only}\n${aboutText(words, date, backUp, nameOf)}`
  return [setUp, night, event('back-up', backUp, { ...hours(backUp), description })]
}

const FIVE_MIN_MS = 300_000

/** When to arrive, as people write it into calendars. */
function arrivalOf({ sunsetAt, duskAt, opensAt, bedAt }: Open): Date {
  const [arrive] = setUpTimes({ sunsetAt, starsFromAt: duskAt, opensAt, closesAt: bedAt })
  return new Date(Math.floor((arrive?.at ?? opensAt).getTime() / FIVE_MIN_MS) * FIVE_MIN_MS)
}

function aboutText(words: Words, { site }: ChosenDate, date: Open, nameOf: (key: string) => string): string {
  const broken = date.broken.map((found) => brokenText(words, found, date.date))
  return [
    words.say('dates.event-about', {
      hours: openText(words, date, site.zone),
      dark: words.say('dates.broken', {
        name: words.say('dates.fact-dark'),
        how: darkText(words, date, site.zone),
      }),
      moon: moonText(words, date, site.zone),
      showpieces: showpiecesText(words, date, nameOf),
    }),
    broken.length === 0
      ? words.say('dates.event-clean')
      : words.say('dates.event-rules', { names: words.list(broken) }),
  ].join('\n')
}
