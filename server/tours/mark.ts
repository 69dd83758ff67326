import { type Static, Type } from 'typebox'
import type { Problem } from '../errors.ts'
import { SKY_PARTS } from './sky-part.ts'

const Target = { targetKey: Type.String({ minLength: 1, maxLength: 60 }) }
const Aimed = Type.Object({ ...Target, aim: Type.Union([Type.Literal('whole'), Type.Literal('close')]) })
const Tour = Type.Object({ tourId: Type.String({ minLength: 1, maxLength: 40 }) })
const Counted = Type.Object({
  adults: Type.Integer({ minimum: -500, maximum: 500 }),
  children: Type.Integer({ minimum: -500, maximum: 500 }),
})

/** What each kind of mark carries. A new kind is one more line here; no migration. */
export const MARK_PAYLOADS = {
  showing: Aimed,
  shown: Type.Object(Target),
  skipped: Type.Object({
    ...Target,
    why: Type.Union([Type.Literal('cloud'), Type.Literal('trees'), Type.Literal('trouble'), Type.Literal('wish')]),
  }),
  trouble: Type.Object({ what: Type.Union([Type.Literal('cloud'), Type.Literal('trees'), Type.Literal('help')]) }),
  seen: Type.Object({ ...Target, who: Type.Union([Type.Literal('they'), Type.Literal('half'), Type.Literal('not')]) }),
  counted: Counted,
  /** Ten people timed at an eyepiece, or as many as there were. */
  timed: Type.Object({
    people: Type.Integer({ minimum: 2, maximum: 50 }),
    seconds: Type.Integer({ minimum: 20, maximum: 7200 }),
  }),
  /** All parts of the sky that clouds shut from then on, for so many minutes or until another such mark. */
  clouds: Type.Object({
    shut: Type.Array(Type.Union(SKY_PARTS.map((part) => Type.Literal(part))), { maxItems: SKY_PARTS.length }),
    minutes: Type.Union([Type.Integer({ minimum: 5, maximum: 720 }), Type.Null()]),
  }),
  station: Type.Object({ is: Type.Union([Type.Literal('out'), Type.Literal('in')]) }),
  accepted: Tour,
  dropped: Tour,
  undo: Type.Object({ markKey: Type.String({ minLength: 8, maxLength: 60 }) }),
} as const
export type MarkKind = keyof typeof MARK_PAYLOADS
export const MARK_KINDS = Object.keys(MARK_PAYLOADS) as readonly MarkKind[]

/** Kinds that say what a station does, and so must name it. */
export const STATION_KINDS: ReadonlySet<MarkKind> = new Set([
  'showing',
  'shown',
  'skipped',
  'trouble',
  'seen',
  'timed',
  'station',
])

/** An act as a phone sends it. `secondsAgo` is the phone's now minus the phone's then, so that a wrong clock cancels. */
export const MarkDraft = Type.Object(
  {
    key: Type.String({ pattern: '^[A-Za-z0-9_-]{8,60}$' }),
    kind: Type.Unsafe<MarkKind>(Type.Union(MARK_KINDS.map((kind) => Type.Literal(kind)))),
    stationId: Type.Union([Type.String({ minLength: 1, maxLength: 40 }), Type.Null()]),
    payload: Type.Record(Type.String({ maxLength: 40 }), Type.Unknown()),
    secondsAgo: Type.Number({ minimum: 0, maximum: 86_400 }),
  },
  { additionalProperties: false },
)
export type MarkDraft = Static<typeof MarkDraft>

/** A kept act: the server's order `seq` decides; `happenedAt` serves durations and the report. */
export interface Mark {
  readonly seq: number
  readonly key: string
  readonly nightId: string
  readonly stationId: string | null
  readonly kind: MarkKind
  readonly payload: Readonly<Record<string, unknown>>
  readonly by: string
  readonly receivedAt: Date
  readonly happenedAt: Date
}

/** An act that can never be kept, and why; the key is null where none could be read. */
interface RefusedMark {
  readonly key: string | null
  readonly problems: readonly Problem[]
}

/** What became of the acts of one sending: kept now or before, in the order sent, and refused. */
export interface RecordedMarks {
  readonly kept: readonly Mark[]
  readonly refused: readonly RefusedMark[]
}
