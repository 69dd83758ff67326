import type { FieldState, StationNow } from './field.ts'
import { standing } from './fold.ts'
import { type HostCall, hostCalls } from './host-calls.ts'
import { nightHours } from './hours.ts'
import { closeLineAt, looksPerHour, waitMin } from './line.ts'
import type { Mark, MarkKind } from './mark.ts'
import { payloadOf } from './mark-payload.ts'
import { COUNT_HOLDS_MIN, type News, newsOf } from './news.ts'
import type { Night, Station } from './night.ts'
import { eyepiecesOf, turnSecOf } from './simulation-rows.ts'
import type { Stop } from './tour.ts'
import { childShareOf, countOf, type Heads, peopleAt } from './visitors.ts'

/** The people that lines are reckoned with: as counted at the gate within the last hour, else as the night's table expects. */
export interface PeopleNow extends Heads {
  readonly isCounted: boolean
  /** What the counts add up to, however old they are. */
  readonly atGate: Heads
  /** The last count, however long ago. */
  readonly countedAt: Date | null
}

/** The line at a telescope that people can look through now. */
export interface Queue {
  readonly inLine: number
  /** One visitor's turn, as timed at this station, else reckoned. */
  readonly cycleSec: number
  readonly isMeasured: boolean
  readonly looksPerHour: number
  /** Until somebody who joins now has looked. */
  readonly waitMin: number
  /** When it moves on, or the sky or the closing hour ends it. */
  readonly leaveAt: Date
  readonly closeLineAt: Date
  /** True from that moment on. */
  readonly isTimeToClose: boolean
}

/** A station with its line. */
export interface StationLine extends Pick<StationNow, 'showing' | 'untilAt' | 'next' | 'trouble'> {
  readonly stationId: string
  /** True once it has left the row. */
  readonly isOut: boolean
  /** Null where nobody can look: no telescope, nothing shown, trouble, or out of the row. */
  readonly queue: Queue | null
  readonly timedAt: Date | null
  /** An hour after it was timed. */
  readonly timeAgainAt: Date | null
  /** True where people can look for a while yet and nobody was timed for an hour. */
  readonly isTimingDue: boolean
}

/** The lines of a night at an instant, and the calls to the whole field. */
export interface LineNow {
  readonly at: Date
  readonly people: PeopleNow
  /** Every station of the row, in its order. */
  readonly stations: readonly StationLine[]
  readonly calls: readonly HostCall[]
}

interface LineNowInput {
  readonly night: Night
  readonly stops: readonly Stop[]
  readonly field: FieldState
  readonly marks: readonly Mark[]
}

const MINUTE_MS = 60_000

/** What every line is like at the instant of the field's state. */
export function lineNow(input: LineNowInput): LineNow {
  const { night, field, marks } = input
  const acts = standing(marks).filter(({ happenedAt }) => happenedAt <= field.at)
  const news = newsOf(night, acts, field.at)
  const people = peopleNow(input, acts)
  const open = night.stations.filter((station) => isOpen(station, stateOf(field, station.id), news)).length
  const stations = night.stations.map((station) => stationLine({ ...input, acts, news, people, open }, station))
  return { at: field.at, people, stations, calls: hostCalls({ night, shut: news.shut, stations, at: field.at }) }
}

/** Minutes as people say them: none, 5, 10 ... 30, then by tens. */
export function aboutMin(minutes: number): number {
  const step = minutes < 32.5 ? 5 : 10
  return minutes < 2 ? 0 : Math.max(step, Math.round(minutes / step) * step)
}

function peopleNow({ night, field }: LineNowInput, acts: readonly Mark[]): PeopleNow {
  const countedAt = newest(acts, 'counted')
  const isCounted = countedAt !== null && field.at < endOf(countedAt)
  const atGate = { adults: field.adultsIn, children: field.childrenIn }
  const { adults, children } = isCounted ? atGate : peopleAt(night, field.at)
  return { adults, children, isCounted, atGate, countedAt }
}

/** Until when a count or a timing tells something. */
const endOf = (then: Date): Date => new Date(then.getTime() + COUNT_HOLDS_MIN * MINUTE_MS)

/** When the last of the marks of a kind was made, of those that can be read. */
function newest(acts: readonly Mark[], kind: MarkKind): Date | null {
  const times = acts.filter((mark) => payloadOf(kind, mark) !== null).map(({ happenedAt }) => happenedAt.getTime())
  return times.length === 0 ? null : new Date(Math.max(...times))
}

const stateOf = ({ stations }: FieldState, id: string): StationNow | undefined =>
  stations.find(({ stationId }) => stationId === id)

const isOpen = ({ id, telescope }: Station, state: StationNow | undefined, { out }: News): boolean =>
  telescope !== null && state?.showing != null && state.trouble === null && !out.includes(id)

interface Ground extends LineNowInput {
  readonly acts: readonly Mark[]
  readonly news: News
  readonly people: PeopleNow
  /** How many telescopes people can look through. */
  readonly open: number
}

function stationLine(ground: Ground, station: Station): StationLine {
  const { field, acts, news } = ground
  const state = stateOf(field, station.id)
  const queue = state && isOpen(station, state, news) ? queueOf(ground, station, state) : null
  const timedAt = newest(
    acts.filter(({ stationId }) => stationId === station.id),
    'timed',
  )
  const timeAgainAt = timedAt && endOf(timedAt)
  return {
    stationId: station.id,
    showing: state?.showing ?? null,
    untilAt: state?.untilAt ?? null,
    next: state?.next ?? null,
    trouble: state?.trouble ?? null,
    isOut: news.out.includes(station.id),
    queue,
    timedAt,
    timeAgainAt,
    isTimingDue: queue?.isTimeToClose === false && (timeAgainAt === null || timeAgainAt <= field.at),
  }
}

function queueOf(ground: Ground, { id, telescope }: Station, state: StationNow): Queue | null {
  const { night, field, news, people, open } = ground
  if (telescope === null || state.showing === null) return null
  const held = heldStops(ground.stops, state)
  const last = held.at(-1)
  const setups = held[0]?.setups ?? []
  const timedSec = news.cycleSec.get(id)
  const share = childShareOf({ ...people, seated: 0 })
  const cycleSec = timedSec === undefined ? turnSecOf(night, telescope, setups, share) : 3600 / looksPerHour(timedSec)
  const inLine = Math.round(countOf(people) / open)
  const leaveAt = earliest([nightHours(night).closesAt, last?.endsAt ?? state.untilAt, last?.leaveBy?.at ?? null])
  const closeAt = latest([state.showing.sinceAt, closeLineAt(leaveAt, inLine, cycleSec)])
  return {
    inLine,
    cycleSec,
    isMeasured: timedSec !== undefined,
    looksPerHour: looksPerHour(cycleSec / eyepiecesOf(setups)),
    waitMin: waitMin(inLine, cycleSec),
    leaveAt,
    closeLineAt: closeAt,
    isTimeToClose: closeAt <= field.at,
  }
}

const earliest = (times: readonly (Date | null)[]): Date =>
  new Date(Math.min(...times.flatMap((time) => (time === null ? [] : [time.getTime()]))))
const latest = (times: readonly Date[]): Date => new Date(Math.max(...times.map((time) => time.getTime())))

/** The stop that a station is in, with those after it that show the same thing, since the people in line then still see it. */
function heldStops(stops: readonly Stop[], { stationId, showing, untilAt }: StationNow): readonly Stop[] {
  const same = stops
    .filter((stop) => stop.stationId === stationId && stop.targetKey === showing?.targetKey)
    .toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
  const held = same.filter(({ aim, endsAt }) => aim === showing?.aim && endsAt.getTime() === untilAt?.getTime())
  for (const stop of same) {
    const endAt = held.at(-1)?.endsAt ?? untilAt
    if (stop.startsAt.getTime() === endAt?.getTime()) held.push(stop)
  }
  return held
}
