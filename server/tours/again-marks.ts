import type { Problem } from '../errors.ts'
import type { MarkDraft } from './mark.ts'
import { payloadProblems } from './mark-payload.ts'
import type { News } from './news.ts'
import type { Night } from './night.ts'
import type { SkyPart } from './sky-part.ts'

/** A night under way as the host tells it; what is as it was known to be is no news. */
export interface Told {
  /** Begins the key of every mark, so that the same words sent twice are kept once. */
  readonly key: string
  readonly shut: readonly SkyPart[]
  /** From now on; null until the host says that it is clear, `as-told` for the time that was told before. */
  readonly minutes: number | null | 'as-told'
  /** Stations that are out of the row. */
  readonly out: readonly string[]
  readonly timed: { readonly stationId: string; readonly people: number; readonly seconds: number } | null
  /** People on the field, as far as they were counted. */
  readonly adults: number | null
  readonly children: number | null
  readonly opens: string
  readonly closes: string
}

/** What was known before. */
export interface Known {
  readonly stations: Night['stations']
  readonly news: News
  readonly adultsIn: number
  readonly childrenIn: number
  readonly countedAt: Date | null
  readonly at: Date
}

const FRESH_COUNT_MS = 300_000
const UNSAID_MIN = 30
const LEAST_CLOUD_MIN = 5
/** A look between these many seconds; outside, what was timed was something else. */
const LOOK_SEC = { minimum: 10, maximum: 600 }
/** One count changes the field by so many people at most. */
const MOST_COUNTED = 500

/** What is wrong with what was typed about people and the line; [] when marks can be made of it. */
export const toldProblems = (told: Told, known: Known): Problem[] => [
  ...timedProblems(told, known),
  ...countProblems('adults', told.adults, known.adultsIn),
  ...countProblems('children', told.children, known.childrenIn),
]

/** The marks of what differs from what was known. */
export const toldMarks = (told: Told, known: Known): MarkDraft[] => [
  ...cloudMarks(told, known),
  ...stationMarks(told, known),
  ...timedMarks(told, known),
  ...countMarks(told, known),
]

function timedProblems({ timed }: Told, { stations }: Known): Problem[] {
  if (timed === null) return []
  const { stationId, ...payload } = timed
  const wrong = payloadProblems('timed', payload)
  const lookSec = payload.seconds / payload.people
  const isOdd = wrong.length === 0 && (lookSec < LOOK_SEC.minimum || lookSec > LOOK_SEC.maximum)
  return [
    ...(stations.some(({ id }) => id === stationId) ? [] : [{ field: 'timed.stationId', key: 'problem.choice' }]),
    ...wrong.map((problem) => ({ ...problem, field: `timed.${problem.field}` })),
    ...(isOdd ? [{ field: 'timed.seconds', key: 'again.look-odd', values: { seconds: Math.round(lookSec) } }] : []),
  ]
}

function countProblems(field: string, typed: number | null, known: number): Problem[] {
  if (typed === null) return []
  if (!Number.isInteger(typed)) return [{ field, key: 'problem.type-integer' }]
  const [minimum, maximum] = [Math.max(0, known - MOST_COUNTED), known + MOST_COUNTED]
  return typed < minimum || typed > maximum ? [{ field, key: 'problem.range', values: { minimum, maximum } }] : []
}

function cloudMarks({ key, shut, minutes }: Told, { news, at }: Known): MarkDraft[] {
  const isSame = shut.length === news.shut.length && shut.every((part) => news.shut.includes(part))
  const isAsTold = minutes === 'as-told' || (minutes === null && news.shutUntilAt === null)
  if (isSame && (isAsTold || shut.length === 0)) return []
  const lasts = minutes === 'as-told' ? minutesLeft(news, at) : minutes
  return [draft(`${key}-clouds`, 'clouds', null, { shut: [...shut], minutes: shut.length === 0 ? null : lasts })]
}

function minutesLeft({ shut, shutUntilAt }: News, at: Date): number | null {
  if (shut.length === 0) return UNSAID_MIN
  return shutUntilAt && Math.max(LEAST_CLOUD_MIN, Math.ceil((shutUntilAt.getTime() - at.getTime()) / 60_000))
}

const stationMarks = ({ key, out }: Told, { stations, news }: Known): MarkDraft[] =>
  stations
    .filter(({ id }) => out.includes(id) !== news.out.includes(id))
    .map(({ id }) => draft(`${key}-${id}`, 'station', id, { is: out.includes(id) ? 'out' : 'in' }))

function timedMarks({ key, timed }: Told, { news }: Known): MarkDraft[] {
  if (timed === null) return []
  const { stationId, people, seconds } = timed
  return news.cycleSec.get(stationId) === seconds / people
    ? []
    : [draft(`${key}-timed`, 'timed', stationId, { people, seconds })]
}

/** A count that finds what was known is news too, once that is a while ago. */
function countMarks({ key, adults, children }: Told, known: Known): MarkDraft[] {
  if (adults === null && children === null) return []
  const more = {
    adults: adults === null ? 0 : adults - known.adultsIn,
    children: children === null ? 0 : children - known.childrenIn,
  }
  const isFresh = known.countedAt !== null && known.at.getTime() - known.countedAt.getTime() < FRESH_COUNT_MS
  return more.adults === 0 && more.children === 0 && isFresh ? [] : [draft(`${key}-counted`, 'counted', null, more)]
}

const draft = (
  key: string,
  kind: MarkDraft['kind'],
  stationId: string | null,
  payload: MarkDraft['payload'],
): MarkDraft => ({ key, kind, stationId, payload, secondsAgo: 0 })
