import type { PhoneNow } from '../../desk/joins.ts'
import type { Words } from '../../words/words.ts'
import { countsOf } from './phones-list.ts'

export interface HealthLine {
  readonly label: string
  readonly text: string
  readonly isWarning: boolean
}

export interface HealthSubject {
  readonly phones: readonly PhoneNow[]
  /** Acts that came within the last ten minutes of the evening. */
  readonly marksInTenMin: number
  /** Null when the system does not say. */
  readonly freeBytes: number | null
}

const GB = 1e9
const LOW_GB = 0.5

/** How the evening stands with the laptop: phones, taps, disk, and what a battery wants. */
export function healthLines(words: Words, subject: HealthSubject): HealthLine[] {
  const { phones, marksInTenMin, freeBytes } = subject
  const line = (part: string, text: string, isWarning = false) => ({
    label: words.say(`phones.health-${part}`),
    text,
    isWarning,
  })
  const isLow = freeBytes !== null && freeBytes < LOW_GB * GB
  return [
    line('in', phonesText(words, phones)),
    line('marks', tapsText(words, marksInTenMin)),
    line('disk', diskText(words, freeBytes, isLow), isLow),
    line('power', words.say('phones.power')),
  ]
}

/** How many phones are in, and how many of them were heard lately. */
export function phonesText(words: Words, phones: readonly PhoneNow[]): string {
  const counts = countsOf(phones)
  return counts.count === 0 ? words.say('phones.none') : words.say('phones.in', counts)
}

const tapsText = (words: Words, inTenMin: number): string =>
  inTenMin === 0 ? words.say('phones.no-marks') : words.say('phones.marks', { rate: words.number(inTenMin / 10, 1) })

function diskText(words: Words, freeBytes: number | null, isLow: boolean): string {
  if (freeBytes === null) return words.say('phones.disk-unknown')
  const size = words.number(freeBytes / GB, freeBytes < 10 * GB ? 1 : 0)
  return words.say(isLow ? 'phones.disk-low' : 'phones.disk', { size })
}
