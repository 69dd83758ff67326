import { Type } from 'typebox'
import { Compile } from 'typebox/compile'
import { MOON_FEATURE_KINDS } from '../server/sight/moon-features.ts'
import { BODY_KEYS } from '../server/sky/body.ts'
import { OBJECT_KINDS, type ShowObject, type Story } from '../server/tours/target.ts'
import { fromJson } from './json.ts'

const OrNull = <Schema extends Parameters<typeof Type.Union>[0][number]>(schema: Schema) =>
  Type.Union([schema, Type.Null()])
const NumberOrNull = OrNull(Type.Number())
const Sources = Type.Record(Type.String(), Type.String())

const Feature = Type.Object({
  name: Type.String(),
  official: Type.String(),
  kind: Type.Union(MOON_FEATURE_KINDS.map((kind) => Type.Literal(kind))),
  longitudeDeg: Type.Number(),
  latitudeDeg: Type.Number(),
  diameterKm: Type.Number(),
  bestFromDeg: Type.Number(),
  bestToDeg: Type.Number(),
  see: Type.String(),
})

const Shower = Type.Object({
  peakSunDeg: Type.Number(),
  fromSunDeg: Type.Number(),
  toSunDeg: Type.Number(),
  zhr: Type.Number(),
  speedKmS: Type.Number(),
})

/** A row of the outreach list as the built catalogue keeps it. */
const Show = Type.Object({
  key: Type.String(),
  name: Type.String(),
  designations: Type.Array(Type.String()),
  kind: Type.Union(OBJECT_KINDS.map((kind) => Type.Literal(kind))),
  body: OrNull(Type.Union(BODY_KEYS.map((body) => Type.Literal(body)))),
  parent: OrNull(Type.Union(BODY_KEYS.map((body) => Type.Literal(body)))),
  raDeg: NumberOrNull,
  decDeg: NumberOrNull,
  pmRaMasYr: Type.Number(),
  pmDecMasYr: Type.Number(),
  parallaxMas: Type.Number(),
  constellation: OrNull(Type.String()),
  magnitude: NumberOrNull,
  magnitudeBand: OrNull(Type.Union([Type.Literal('V'), Type.Literal('B'), Type.Literal('mean V')])),
  magnitudeRange: OrNull(Type.Tuple([Type.Number(), Type.Number()])),
  bv: NumberOrNull,
  majorArcmin: NumberOrNull,
  minorArcmin: NumberOrNull,
  halfLightArcmin: NumberOrNull,
  branchMag: NumberOrNull,
  coreMagnitude: NumberOrNull,
  coreArcmin: NumberOrNull,
  condensation: NumberOrNull,
  angleDeg: NumberOrNull,
  brightestStarMag: NumberOrNull,
  starCount: NumberOrNull,
  starMagnitudes: Type.Array(Type.Number()),
  componentMagnitudes: OrNull(Type.Tuple([Type.Number(), Type.Number()])),
  separationArcsec: NumberOrNull,
  pairAngleDeg: NumberOrNull,
  pairYear: NumberOrNull,
  colours: OrNull(Type.Tuple([Type.String(), Type.String()])),
  hips: Type.Array(Type.Integer()),
  fieldDeg: NumberOrNull,
  features: Type.Array(Feature),
  shower: OrNull(Shower),
  distanceLy: NumberOrNull,
  distancePercent: NumberOrNull,
  ageMyr: NumberOrNull,
  note: OrNull(Type.String()),
  appeal: Type.Number({ minimum: 0, maximum: 1 }),
  appealReason: Type.String(),
  atOnce: Type.Integer({ minimum: 1 }),
  sources: Sources,
})

export interface StoryRow {
  readonly key: string
  readonly language: string
  readonly see: string
  readonly look_for: string
  readonly how: string
  readonly compare: string
  readonly answer: string
  readonly children: string
  readonly more: string
  readonly sources: string
}

// Hundreds are read at every start: the compiled check is many times as fast as the one that walks the schema.
const show = Compile(Show)

/** The outreach object kept as JSON text; throws when it does not fit its schema. */
export const showObjectOf = (json: string): ShowObject => show.Parse(JSON.parse(json))

/** A row of stories as the floors above know it. */
export function storyOf({ look_for: lookFor, sources, ...row }: StoryRow): Story {
  return { ...row, lookFor, sources: fromJson(Sources, sources) }
}
