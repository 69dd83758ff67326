import { type ClockChange, clockTonight } from '../../tours/clock-tonight.ts'
import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'

const MINUTE_MS = 60_000
const HOUR_MIN = 60
/** The clocks of a night matter from the arrival to the last walk over the field. */
const BEFORE_MIN = 180
const AFTER_MIN = 30

/** That the clocks change while people are on the field, and when; null on most nights. */
export function clockText(words: Words, night: Night): string | null {
  const { opensAt, closesAt } = nightHours(night)
  const fromAt = new Date(opensAt.getTime() - BEFORE_MIN * MINUTE_MS)
  const untilAt = new Date(closesAt.getTime() + AFTER_MIN * MINUTE_MS)
  const { change } = clockTonight(night.site.zone, opensAt, { fromAt, untilAt })
  if (change === null) return null
  return words.say(
    change.toMin > change.fromMin ? 'page.clocks-forward' : 'page.clocks-back',
    changeValues(words, change),
  )
}

/** The clock times of a change, before and after it, and by how much it is. */
export const changeValues = (words: Words, { at, fromMin, toMin }: ClockChange) => ({
  from: clockAt(words, at, fromMin),
  to: clockAt(words, at, toMin),
  span: spanText(words, Math.abs(toMin - fromMin)),
})

/** What a clock that is set so far from UTC shows. */
const clockAt = (words: Words, at: Date, offsetMin: number): string =>
  words.time(new Date(at.getTime() + offsetMin * MINUTE_MS), 'UTC')

/** `1 hour`, `30 minutes`, `5 hours 45 minutes`. */
export function spanText(words: Words, minutes: number): string {
  const [hours, rest] = [Math.floor(minutes / HOUR_MIN), minutes % HOUR_MIN]
  const parts = [
    ...(hours > 0 ? [words.say('aloud.hours', { count: hours })] : []),
    ...(rest > 0 ? [words.say('aloud.minutes', { count: rest })] : []),
  ]
  return parts.join(' ')
}
