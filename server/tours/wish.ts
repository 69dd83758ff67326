import { type Static, type TSchema, Type } from 'typebox'
import { WallClock } from './night.ts'
import { type Aim, TELESCOPE_KINDS, type TelescopeKind } from './target.ts'

/**
 * What a host may wish of a programme: `pin` a thing at a station from-to, `bar` it there or everywhere, `ask` for it
 * somewhere for half an hour, `only` some kinds of things, or one thing, at a station while any of them can be shown.
 */
const WISH_KINDS = ['pin', 'bar', 'ask', 'only'] as const
export type WishKind = (typeof WISH_KINDS)[number]

const Id = Type.String({ minLength: 1, maxLength: 40 })
const orNull = <Part extends TSchema>(part: Part) => Type.Optional(Type.Union([part, Type.Null()]))
const Thing = Type.Unsafe<TelescopeKind>(Type.Union(TELESCOPE_KINDS.map((kind) => Type.Literal(kind))))

/** A wish as it is sent: what its kind does not need is left out. Times are by the clocks of the site. */
export const WishDraft = Type.Object({
  kind: Type.Unsafe<WishKind>(Type.Union(WISH_KINDS.map((kind) => Type.Literal(kind)))),
  stationId: orNull(Id),
  targetKey: orNull(Type.String({ minLength: 1, maxLength: 60 })),
  aim: orNull(Type.Union([Type.Literal('whole'), Type.Literal('close')])),
  startsAt: orNull(WallClock),
  endsAt: orNull(WallClock),
  things: Type.Optional(Type.Array(Thing, { maxItems: TELESCOPE_KINDS.length })),
})
export type WishDraft = Static<typeof WishDraft>

export interface Wish {
  readonly id: string
  readonly kind: WishKind
  readonly stationId: string | null
  readonly targetKey: string | null
  /** Null: whole or close, as it comes out best. */
  readonly aim: Aim | null
  /** `HH:mm` by the clocks of the site; null for the whole of the public hours. */
  readonly startsAt: string | null
  readonly endsAt: string | null
  /** The kinds that an `only` allows; [] where it names a target. */
  readonly things: readonly TelescopeKind[]
}

/** What a wish says, without its id. */
export type WishMatter = Omit<Wish, 'id'>

/** A draft with everything that it leaves out written as null. */
export const wishOf = (draft: WishDraft, id: string): Wish => ({
  id,
  kind: draft.kind,
  stationId: draft.stationId ?? null,
  targetKey: draft.targetKey ?? null,
  aim: draft.aim ?? null,
  startsAt: draft.startsAt ?? null,
  endsAt: draft.endsAt ?? null,
  things: draft.things ?? [],
})

/** Kinds that go together when a host says what a telescope is for. */
export const THING_GROUPS = {
  'moon-and-planets': ['moon', 'planet'],
  stars: ['star', 'red-star', 'double', 'asterism'],
  clusters: ['open-cluster', 'globular'],
  clouds: ['nebula', 'planetary', 'remnant', 'galaxy', 'comet'],
} as const satisfies Readonly<Record<string, readonly TelescopeKind[]>>
type ThingGroup = keyof typeof THING_GROUPS

export const THING_GROUP_NAMES = Object.keys(THING_GROUPS) as ThingGroup[]

/** The group that holds just these kinds, or null. */
export const groupOf = (things: readonly TelescopeKind[]): ThingGroup | null => {
  const sorted = [...things].sort().join()
  return THING_GROUP_NAMES.find((name) => [...THING_GROUPS[name]].sort().join() === sorted) ?? null
}
