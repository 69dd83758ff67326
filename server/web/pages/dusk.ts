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

/** Sunset and the three dusks by the site's clocks, each with what it means for the field; a missing one says so. */
export const duskTimes = (words: Words, evening: EveningAnswer): readonly DuskTime[] =>
  DUSKS.map(([name, field]) => {
    const at = evening[field]
    return {
      label: words.say(`page.dusk-${name}`),
      time: at ? words.time(at, evening.zone) : words.say('page.dusk-never'),
      meaning: words.say(`page.dusk-${name}-means`),
    }
  })
