import type { Missing } from '../../tours/missing.ts'
import type { Barred } from '../../tours/missing-barred.ts'
import type { Cause } from '../../tours/tour.ts'
import type { Words } from '../../words/words.ts'
import { remarkText } from './say.ts'

/** The showpieces that are not on a programme, a sentence each; `later` stands for them while they are worked out. */
export interface MissingPart {
  readonly title: string
  readonly lines: readonly string[]
  readonly later: string | null
}

/** The part of the programme's page; null when there is nothing to say. `missing` is null while it is worked out. */
export function missingPart(words: Words, missing: readonly Missing[] | null, zone: string): MissingPart | null {
  if (missing?.length === 0) return null
  return {
    title: words.say('missing.title'),
    lines: (missing ?? []).map((it) => missingText(words, it, zone)),
    later: missing === null ? words.say('missing.later') : null,
  }
}

/** `Orion Nebula: behind the oak until 20:10, and a spare at By the gate from 20:15 to 21:00.` */
export function missingText(words: Words, { name, barred, reason }: Missing, zone: string): string {
  const second = remarkText(words, reason)
  const why = barred ? words.say('missing.and', { first: barredText(words, barred, zone), second }) : second
  return words.say('missing.line', { name, why })
}

function barredText(words: Words, { cause, fromAt, untilAt }: Barred, zone: string): string {
  const values = {
    cause: causeText(words, cause),
    from: fromAt ? words.time(fromAt, zone) : '',
    to: untilAt ? words.time(untilAt, zone) : '',
  }
  if (fromAt && untilAt) return words.say('missing.between', values)
  if (fromAt) return words.say('missing.from', values)
  return words.say(untilAt ? 'missing.until' : 'missing.all', values)
}

const causeText = (words: Words, { code, name }: Cause): string =>
  code === 'skyline' && !name ? words.say('missing.bar-trees') : words.say(`missing.bar-${code}`, { name: name ?? '' })
