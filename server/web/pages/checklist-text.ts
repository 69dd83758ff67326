import type { ChecklistItem } from '../../tours/checklist.ts'
import { calendarDate } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import type { Viewer } from './sheet.ts'

/** What is to be seen to, in the reader's words or the host's. */
export const itemText = (words: Words, { id, text }: Pick<ChecklistItem, 'id' | 'text'>): string =>
  text === '' ? words.say(`checklist.item-${id}`) : text

/** Who sees to it; the names of people are for those who act. */
export function ownerText({ words, mayAct }: Viewer, { role, name }: ChecklistItem['owner']): string {
  if (role === 'named') return mayAct ? name : ''
  return words.say(`checklist.owner-${role}`)
}

/** The clock time at the site, with its day of the week where that is not the day of the line before or, of the first line, the night's own. */
export function timeText(words: Words, { date, site }: Pick<Night, 'date' | 'site'>, at: Date, before?: Date): string {
  const time = words.time(at, site.zone)
  const day = calendarDate(at, site.zone)
  return day === (before ? calendarDate(before, site.zone) : date)
    ? time
    : words.say('checklist.on-day', { day: words.weekday(day), time })
}
