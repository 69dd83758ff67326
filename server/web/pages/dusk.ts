import type { EveningAnswer } from '../../desk/desk.ts'
import type { Words } from '../../words/words.ts'

export interface DuskTime {
  readonly label: string
  readonly time: string
  readonly meaning: string
}

const DUSKS = [
  ['sunset', 'sunsetAt'],
  ['civil', 'civilDuskAt'],
  ['nautical', 'nauticalDuskAt'],
  ['dark', 'astronomicalDuskAt'],
] as const

/**
 * Sunset and the three dusks by the site's clocks, each with what it means for the field; a missing one says so. Of a night
 * dated after midnight they are those of the day before, and named after it.
 */
export const duskTimes = (words: Words, evening: EveningAnswer, date: string): readonly DuskTime[] =>
  DUSKS.map(([name, field]) => {
    const at = evening[field]
    const plain = words.say(`page.dusk-${name}`)
    const isBefore = evening.date !== date && at !== null
    return {
      label: isBefore ? words.say(`page.dusk-${name}-of`, { day: words.weekday(evening.date) }) : plain,
      time: at ? words.time(at, evening.zone) : words.say('page.dusk-never'),
      meaning: words.say(`page.dusk-${name}-means`),
    }
  })
