import { nightHours } from './hours.ts'
import type { Night } from './night.ts'
import type { SkyPart } from './sky-part.ts'

export const HOST_CALLS = ['ten', 'line', 'cloud', 'lights'] as const

/** One of the host's four calls this evening. */
export interface HostCall {
  readonly call: (typeof HOST_CALLS)[number]
  /** Its time; null for one that has none. */
  readonly at: Date | null
  readonly state: 'now' | 'next' | 'later' | 'past'
  /** The stations that it is for; [] for the whole field. */
  readonly stationIds: readonly string[]
}

/** The line at a station as far as a call needs it; null where nobody can look. */
interface Closing {
  readonly stationId: string
  readonly queue: { readonly closeLineAt: Date; readonly isTimeToClose: boolean } | null
}

interface CallsInput {
  readonly night: Night
  /** Parts of the sky that clouds shut. */
  readonly shut: readonly SkyPart[]
  readonly stations: readonly Closing[]
  readonly at: Date
}

const MINUTE_MS = 60_000
const CALL_BEFORE_MIN = 10
/** How long after the closing hour the last call is still to be made. */
const LIGHTS_MIN = 30

type Time = Omit<HostCall, 'call' | 'state'> & { readonly isNow: boolean; readonly isPast: boolean }

/** The four calls with their times; the earliest of those to come is the next. */
export function hostCalls(input: CallsInput): HostCall[] {
  const times = timesOf(input)
  const coming = HOST_CALLS.flatMap((call) => {
    const { at, isNow, isPast } = times[call]
    return at === null || isNow || isPast ? [] : [{ call, ms: at.getTime() }]
  })
  const next = coming.sort((a, b) => a.ms - b.ms)[0]?.call
  return HOST_CALLS.map((call) => {
    const { at, stationIds, isNow, isPast } = times[call]
    if (isNow) return { call, at, stationIds, state: 'now' }
    if (isPast) return { call, at, stationIds, state: 'past' }
    return { call, at, stationIds, state: call === next ? 'next' : 'later' }
  })
}

function timesOf({ night, shut, stations, at }: CallsInput): Readonly<Record<HostCall['call'], Time>> {
  const { closesAt } = nightHours(night)
  const tenAt = new Date(closesAt.getTime() - CALL_BEFORE_MIN * MINUTE_MS)
  const isOver = at >= closesAt
  const dark = new Date(closesAt.getTime() + LIGHTS_MIN * MINUTE_MS)
  return {
    ten: { at: tenAt, stationIds: [], isNow: tenAt <= at && !isOver, isPast: isOver },
    line: lineCall(stations, isOver),
    cloud: { at: null, stationIds: [], isNow: shut.length > 0 && !isOver, isPast: isOver },
    lights: { at: closesAt, stationIds: [], isNow: isOver && at < dark, isPast: at >= dark },
  }
}

/** The lines that are to be closed now, else the one that is closed first. */
function lineCall(stations: readonly Closing[], isOver: boolean): Time {
  const open = stations.flatMap(({ stationId, queue }) => (queue === null || isOver ? [] : [{ stationId, queue }]))
  const due = open.filter(({ queue }) => queue.isTimeToClose)
  const first = open.toSorted((a, b) => a.queue.closeLineAt.getTime() - b.queue.closeLineAt.getTime())[0]
  const meant = due.length > 0 ? due : first === undefined ? [] : [first]
  return {
    at: first?.queue.closeLineAt ?? null,
    stationIds: meant.map(({ stationId }) => stationId),
    isNow: due.length > 0,
    isPast: isOver,
  }
}
