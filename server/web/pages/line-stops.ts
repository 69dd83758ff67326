import type { LineAnswer } from '../../desk/desk.ts'
import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { ReckonedStop } from '../../tours/simulation-reckoned.ts'
import type { StopReport } from '../../tours/simulation-report.ts'
import type { Words } from '../../words/words.ts'
import { objectHref } from './night-links.ts'
import type { Names } from './say.ts'

/** One stop: what arithmetic says of its line, and what came out of the evenings that were played. */
export interface LineStopText {
  readonly when: string
  readonly name: string
  readonly href: string
  readonly reckoned: readonly string[]
  readonly played: readonly string[]
}

/** A line that is closed so shortly before the end of its stop need not be closed at all. */
const TO_THE_END_SEC = 120

/** The instant of a second of the evening. */
export const momentOf = (night: Night, sec: number): Date =>
  new Date(nightHours(night).opensAt.getTime() + Math.round(sec * 1000))

/** The stops of one station in the order of time. */
export function lineStops(
  words: Words,
  night: Night,
  { reckoned, simulated }: LineAnswer,
  stationId: string,
  names: Names,
): LineStopText[] {
  const here = reckoned.stops.filter((stop) => stop.stationId === stationId)
  return here
    .toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
    .map((stop) => ({
      when: words.say('page.from-to', {
        from: words.time(stop.startsAt, night.site.zone),
        to: words.time(stop.endsAt, night.site.zone),
      }),
      name: names.nameOf(stop.targetKey),
      href: objectHref(night, stop.targetKey),
      reckoned: reckonedTexts(words, night, stop),
      played: simulated.stops
        .filter((played) => isOf(night, played, stop))
        .map((played) => playedText(words, night, played)),
    }))
}

const isOf = (night: Night, played: StopReport, stop: ReckonedStop): boolean =>
  played.stationId === stop.stationId &&
  momentOf(night, played.fromSec) >= stop.startsAt &&
  momentOf(night, played.untilSec) <= stop.endsAt

function reckonedTexts(words: Words, night: Night, stop: ReckonedStop): string[] {
  const { turnSec, looksPerHour, stopMin, inLine, waitMin, closeAt, startsAt } = stop
  const time = words.time(closeAt, night.site.zone)
  return [
    words.say('line.pace', { seconds: Math.round(turnSec), count: Math.round(looksPerHour) }),
    words.say('line.stop-length', { minutes: Math.round(stopMin), count: Math.round((looksPerHour * stopMin) / 60) }),
    words.say('line.wait-of-last', { count: inLine, minutes: Math.ceil(waitMin) }),
    words.say(closeAt.getTime() === startsAt.getTime() ? 'line.too-many' : 'line.close-at', { time }),
  ]
}

function playedText(words: Words, night: Night, { looks, waitMedianMin, closeSec, untilSec }: StopReport): string {
  if (waitMedianMin === null) return words.say('line.played-nobody')
  const isOpen = untilSec - closeSec <= TO_THE_END_SEC
  const close = isOpen
    ? words.say('line.played-open')
    : words.say('line.played-close', { time: words.time(momentOf(night, closeSec), night.site.zone) })
  const looked = words.say('line.played', { count: Math.round(looks), minutes: Math.max(1, Math.ceil(waitMedianMin)) })
  return `${looked} ${close}`
}
