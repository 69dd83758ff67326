import type { Who } from '../../desk/desk.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'

/** A phone whose clock is off by more is told of. */
const WRONG_CLOCK_SEC = 30
const MINUTE_SEC = 60
const HOUR_SEC = 3_600

export const isClockWrong = ({ aheadSec }: Pick<Who, 'aheadSec'>): boolean =>
  aheadSec !== null && Math.abs(aheadSec) > WRONG_CLOCK_SEC

/** `45 seconds`, `12 minutes` or `3 hours`, in the largest of them of which there are two. */
export function spanText(words: Words, sec: number): string {
  if (sec < 2 * MINUTE_SEC) return words.say('phones.seconds', { count: Math.round(sec) })
  if (sec < 2 * HOUR_SEC) return words.say('phones.minutes', { count: Math.round(sec / MINUTE_SEC) })
  return words.say('phones.hours', { count: Math.round(sec / HOUR_SEC) })
}

/** What a phone does tonight: `at a telescope`. */
export const phoneRoleText = (words: Words, { role }: Pick<Who, 'role'>): string => words.say(`phones.role-${role}`)

/** Where a phone stands; null for a helper without a station, whose role says it. */
export function standText(
  words: Words,
  night: Night,
  { role, stationId }: Pick<Who, 'role' | 'stationId'>,
): string | null {
  const station = night.stations.find(({ id }) => id === stationId)
  if (station) return words.say('phones.stands', { station: station.name })
  return role === 'helper' ? null : words.say('phones.roves')
}

/** When a phone was last heard, in minutes. */
export function heardText(words: Words, silentSec: number | null): string {
  if (silentSec === null) return words.say('phones.unheard')
  if (silentSec < MINUTE_SEC) return words.say('phones.heard-now')
  return words.say('phones.heard', { count: Math.round(silentSec / MINUTE_SEC) })
}

/** How the clock of a phone stands to the laptop's: `clock 12 minutes ahead`. */
export function clockText(words: Words, who: Pick<Who, 'aheadSec'>): string {
  const { aheadSec } = who
  if (aheadSec === null) return words.say('phones.clock-unknown')
  if (!isClockWrong(who)) return words.say('phones.clock-right')
  return words.say(aheadSec > 0 ? 'phones.clock-ahead' : 'phones.clock-behind', {
    time: spanText(words, Math.abs(aheadSec)),
  })
}
