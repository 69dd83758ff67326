import type { BesideHalf } from '../../tours/beside-lines.ts'
import type { CheckLine } from '../../tours/check.ts'
import type { FieldState, StationNow } from '../../tours/field.ts'
import { nightHours } from '../../tours/hours.ts'
import type { News } from '../../tours/news.ts'
import type { Night } from '../../tours/night.ts'
import { SKY_PARTS } from '../../tours/sky-part.ts'
import type { Stop, Tour } from '../../tours/tour.ts'
import type { Words } from '../../words/words.ts'
import { besideNow } from './beside.ts'
import { partText } from './hole.ts'
import { type Names, targetName, untilText } from './say.ts'
import { endText } from './stop-line.ts'

/** The night as the pages of the field show it. */
export interface FieldGround {
  readonly night: Night
  readonly tour: Tour | undefined
  readonly field: FieldState
  readonly news: News
  /** Of the marks that the page is made from. */
  readonly version: string
  /** What the stations that are no telescope show; [] while that is worked out. */
  readonly beside: readonly BesideHalf[]
  readonly names: Names
  readonly look: 'day' | 'lamp'
  /** Makes the key of one mark, new for every form. */
  readonly newKey: () => string
}

/** What a station shows now and next, in words. */
interface NowText {
  readonly name: string
  /** `until 18:40: oak`; null where nothing is on. */
  readonly until: string | null
  readonly next: string | null
}

/** What a station is doing by plan and marks. */
export const stateOf = ({ field }: Pick<FieldGround, 'field'>, stationId: string): StationNow | undefined =>
  field.stations.find((station) => station.stationId === stationId)

/**
 * What a station shows now, until when, and what comes next; a station that is no telescope goes by its half hours. How
 * the thing stands, where that is known, tells of what nobody has planned when the sky ends it.
 */
export function nowText(words: Words, ground: FieldGround, stationId: string, on: CheckLine | null = null): NowText {
  const state = stateOf(ground, stationId)
  if (state?.showing || state?.next) return ofTelescope(words, ground, state, on)
  return besideText(words, ground, stationId) ?? { name: words.say('field.nothing'), until: null, next: null }
}

function ofTelescope(words: Words, ground: FieldGround, state: StationNow, on: CheckLine | null): NowText {
  const { names, night } = ground
  const { showing, next } = state
  return {
    name: showing ? targetName(words, names, showing.targetKey, showing.aim) : words.say('field.nothing'),
    until: untilOf(words, ground, state, on),
    next:
      next &&
      words.say('field.next-at', {
        time: words.time(next.atAt, night.site.zone),
        name: targetName(words, names, next.targetKey, next.aim),
      }),
  }
}

/** The planned end, with what hides it then if that is why; of what is not planned, when the sky ends it or the next stop begins. */
function untilOf(words: Words, ground: FieldGround, state: StationNow, on: CheckLine | null): string | null {
  const { night } = ground
  const { showing, untilAt } = state
  if (!showing) return null
  const stop = runningStop(ground, state)
  if (stop && untilAt) return forcedText(words, night, stop) ?? endText(words, night, stop)
  const { zone } = night.site
  if (on?.untilAt && on.cause && (!untilAt || on.untilAt < untilAt)) {
    return untilText(words, on.untilAt, on.cause, zone)
  }
  return untilAt && words.say('page.until-time', { time: words.time(untilAt, zone) })
}

const QUARTER_MS = 900_000

/** The leave-by of a stop that could not stay another quarter hour: the sky ends it and not the plan. */
function forcedText(words: Words, { site }: Night, { leaveBy, endsAt }: Stop): string | null {
  const isForced = leaveBy !== null && leaveBy.at.getTime() - endsAt.getTime() < QUARTER_MS
  return isForced ? untilText(words, leaveBy.at, leaveBy.cause, site.zone) : null
}

/** The stop of the plan that is on; undefined for what nobody has planned. */
export const runningStop = ({ tour, field }: FieldGround, { stationId, showing }: StationNow): Stop | undefined =>
  tour?.stops.find(
    (stop) =>
      stop.stationId === stationId &&
      stop.targetKey === showing?.targetKey &&
      stop.aim === showing.aim &&
      stop.endsAt > field.at,
  )

function besideText(words: Words, { night, names, beside, field }: FieldGround, stationId: string): NowText | null {
  const { zone } = night.site
  const half = halfAt(beside, stationId, field.at)
  const name = besideNow(words, names, beside, stationId, field.at)
  if (half === undefined || name === null) return null
  const next = besideNow(words, names, beside, stationId, half.toAt)
  const isLast = half.toAt >= nightHours(night).closesAt
  return {
    name,
    until: isLast ? words.say('page.until-end') : words.say('page.until-time', { time: words.time(half.toAt, zone) }),
    next: next && next !== name ? words.say('field.next-at', { time: words.time(half.toAt, zone), name: next }) : null,
  }
}

/** The half hour of a station that is no telescope. */
export const halfAt = (beside: readonly BesideHalf[], stationId: string, at: Date): BesideHalf | undefined =>
  beside.find((half) => half.stationId === stationId && half.fromAt <= at && at < half.toAt)

/** Clouds that were told of, in one line; null while nobody has told of any. */
export function cloudText(words: Words, { night, news }: FieldGround): string | null {
  const { shut, shutUntilAt } = news
  if (shut.length === 0) return null
  const isAll = shut.length === SKY_PARTS.length
  const parts = isAll ? words.say('field.clouds-all') : words.list(shut.map((part) => partText(words, part)))
  if (shutUntilAt === null) return words.say('field.clouds', { parts })
  return words.say('field.clouds-until', { parts, time: words.time(shutUntilAt, night.site.zone) })
}
