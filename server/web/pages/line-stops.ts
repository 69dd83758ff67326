import type { LineAnswer } from '../../desk/desk.ts'
import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { ReckonedStop } from '../../tours/simulation-reckoned.ts'
import type { StopReport } from '../../tours/simulation-report.ts'
import type { Words } from '../../words/words.ts'
import { objectHref } from './night-links.ts'
import type { Names } from './say.ts'

/** One stop: when to close its line, what arithmetic says of it, and what came out of the evenings that were played. */
export interface LineStopText {
  readonly when: string
  readonly name: string
  readonly href: string
  /** By the same arithmetic as on the line helper's phone, so that nobody hears two times. */
  readonly close: string
  readonly reckoned: readonly string[]
  readonly played: readonly string[]
}

/** A line that is closed so shortly before the end of its stop need not be closed at all. */
const TO_THE_END_MS = 120_000

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
      close: closeText(words, night, stop),
      reckoned: reckonedTexts(words, stop),
      played: simulated.stops.filter((played) => isOf(night, played, stop)).map((played) => playedText(words, played)),
    }))
}

const isOf = (night: Night, played: StopReport, stop: ReckonedStop): boolean =>
  played.stationId === stop.stationId &&
  momentOf(night, played.fromSec) >= stop.startsAt &&
  momentOf(night, played.untilSec) <= stop.endsAt

function closeText(words: Words, { site }: Night, { closeAt, startsAt, endsAt }: ReckonedStop): string {
  if (closeAt.getTime() === startsAt.getTime()) return words.say('line.too-many')
  if (endsAt.getTime() - closeAt.getTime() <= TO_THE_END_MS) return words.say('line.open-to-end')
  return words.say('line.close-at', { time: words.time(closeAt, site.zone) })
}

function reckonedTexts(words: Words, { turnSec, looksPerHour, stopMin, inLine, waitMin }: ReckonedStop): string[] {
  return [
    words.say('line.pace', { seconds: Math.round(turnSec), count: Math.round(looksPerHour) }),
    words.say('line.stop-length', { minutes: Math.round(stopMin), count: Math.round((looksPerHour * stopMin) / 60) }),
    words.say('line.wait-of-last', { count: inLine, minutes: Math.ceil(waitMin) }),
  ]
}

function playedText(words: Words, { looks, waitMedianMin }: StopReport): string {
  if (waitMedianMin === null) return words.say('line.played-nobody')
  return words.say('line.played', { count: Math.round(looks), minutes: Math.max(1, Math.ceil(waitMedianMin)) })
}
