import type { EveningAnswer } from '../../desk/desk.ts'
import { type Dusk, dusksOf } from '../../tours/dusks.ts'
import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'

interface DuskTime {
  readonly label: string
  readonly time: string
  readonly meaning: string
}

export interface DuskTimes {
  readonly dusks: readonly DuskTime[]
  /** Why it does not get dark, or why no Sun sets; null on a night with every dusk. */
  readonly noDark: string | null
}

/**
 * Sunset and the three dusks by the site's clocks, each with what it means for the field; a missing one says so. Of a night
 * dated after midnight they are those of the day before, and named after it.
 */
export function duskTimes(words: Words, evening: EveningAnswer, night: Night): DuskTimes {
  const dusks = dusksOf(night.site, evening, nightHours(night).opensAt)
  return {
    dusks: dusks.map(({ step, at, isAllDay }) => {
      const isBefore = evening.date !== night.date && at !== null
      return {
        label: isBefore
          ? words.say(`page.dusk-${step}-of`, { day: words.weekday(evening.date) })
          : words.say(`page.dusk-${step}`),
        time: at ? words.time(at, evening.zone) : words.say(neverCode({ step, isAllDay })),
        meaning: words.say(`page.dusk-${step}-means`),
      }
    }),
    noDark: noDarkText(words, dusks),
  }
}

function neverCode({ step, isAllDay }: Pick<Dusk, 'step' | 'isAllDay'>): string {
  if (!isAllDay) return 'page.dusk-never'
  return step === 'sunset' ? 'page.dusk-no-sunrise' : 'page.dusk-all-day'
}

function noDarkText(words: Words, dusks: readonly Dusk[]): string | null {
  const deepest = dusks.findLast(({ at, isAllDay }) => at !== null || isAllDay)?.step
  if (deepest === undefined) return words.say('page.no-dark-stays-up')
  const said = [
    ...(dusks.some(({ step, isAllDay }) => step === 'sunset' && isAllDay) ? ['page.no-dark-stays-down'] : []),
    ...(deepest === 'dark' ? [] : [`page.no-dark-${deepest}`]),
  ]
  return said.length === 0 ? null : said.map((code) => words.say(code)).join(' ')
}
