import { type Static, Type } from 'typebox'
import { constellationOf } from '../sky/constellation.ts'
import { OWN_KINDS } from './own-kinds.ts'
import type { ShowObject } from './target.ts'

const magnitude = Type.Number({ minimum: -10, maximum: 16 })
const arcmin = Type.Number({ minimum: 0.05, maximum: 720 })
const colour = Type.String({ minLength: 1, maxLength: 20 })
/** ISO 8601 with its zone, so that it names one instant wherever it is read. */
const instant = Type.String({
  pattern: '^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d{1,3})?)?(Z|[+-]\\d{2}:\\d{2})$',
})
/** One of the sixteen compass points, 0 is north and 4 east. */
const point = Type.Integer({ minimum: 0, maximum: 15 })

/**
 * A thing as the host types it in: its ICRS place at epoch J2000.0 in degrees, its V magnitude (the whole light of it, of
 * a double that of the brighter star), what else its kind has, and its delight for a newcomer, 0 to 1, with the reason.
 */
export const OwnObjectDraft = Type.Object({
  name: Type.String({ minLength: 1, maxLength: 60 }),
  kind: Type.Enum(OWN_KINDS),
  raDeg: Type.Optional(Type.Number({ minimum: 0, exclusiveMaximum: 360 })),
  decDeg: Type.Optional(Type.Number({ minimum: -90, maximum: 90 })),
  magnitude,
  /** The part that an eye sees, of a comet its coma. */
  majorArcmin: Type.Optional(arcmin),
  minorArcmin: Type.Optional(arcmin),
  starCount: Type.Optional(Type.Integer({ minimum: 3, maximum: 5000 })),
  brightestStarMag: Type.Optional(magnitude),
  /** The fainter star of a double. */
  secondMagnitude: Type.Optional(magnitude),
  separationArcsec: Type.Optional(Type.Number({ minimum: 0.3, maximum: 700 })),
  colour: Type.Optional(colour),
  secondColour: Type.Optional(colour),
  /** How condensed a comet's coma is, 0 (an even glow) to 9 (like a star). */
  condensation: Type.Optional(Type.Integer({ minimum: 0, maximum: 9 })),
  /** The true field that shows the whole of a pattern of stars. */
  fieldDeg: Type.Optional(Type.Number({ minimum: 0.1, maximum: 60 })),
  distanceLy: Type.Optional(Type.Number({ minimum: 4, maximum: 200_000_000 })),
  /** When and where what passes over comes up, and when and where it is gone. */
  fromAt: Type.Optional(instant),
  toAt: Type.Optional(instant),
  fromPoint: Type.Optional(point),
  toPoint: Type.Optional(point),
  appeal: Type.Number({ minimum: 0, maximum: 1 }),
  appealReason: Type.String({ minLength: 1, maxLength: 160 }),
})
export type OwnObjectDraft = Readonly<Static<typeof OwnObjectDraft>>

/** A thing of the host's: as it was typed in, as the list holds it, and whether it is on the list. */
export interface OwnThing {
  readonly key: string
  readonly isListed: boolean
  readonly draft: OwnObjectDraft
  readonly object: ShowObject
}

const KEY_START = 'own-'

/** The key under which a thing of the host's is known for ever. */
export const ownKey = (id: string): string => `${KEY_START}${id}`

/** True for the key of a thing that a host entered, on the list still or not. */
export const isOwnKey = (key: string): boolean => key.startsWith(KEY_START)

/** A draft as it is kept: texts without blanks at their ends, instants in UTC. The draft must have no problem. */
export function tidied(draft: OwnObjectDraft): OwnObjectDraft {
  const trimmed = Object.entries(draft).map(([field, value]) => [
    field,
    typeof value === 'string' ? value.trim() : value,
  ])
  const { fromAt, toAt } = draft
  return {
    ...draft,
    ...Object.fromEntries(trimmed),
    ...(fromAt !== undefined && { fromAt: new Date(fromAt).toISOString() }),
    ...(toAt !== undefined && { toAt: new Date(toAt).toISOString() }),
  }
}

/** The object of the list that a draft stands for; the draft must have no problem. */
export function ownObject(draft: OwnObjectDraft, key: string): ShowObject {
  const { raDeg = null, decDeg = null, majorArcmin = null, minorArcmin = majorArcmin, fieldDeg = null } = draft
  const { condensation = null, starCount = null, brightestStarMag = null, separationArcsec = null } = draft
  const { secondMagnitude, colour: one, secondColour: other } = draft
  return {
    ...UNKNOWN,
    key,
    name: draft.name,
    kind: draft.kind,
    raDeg,
    decDeg,
    constellation: raDeg === null || decDeg === null ? null : constellationOf(raDeg, decDeg),
    magnitude: secondMagnitude === undefined ? draft.magnitude : together(draft.magnitude, secondMagnitude),
    majorArcmin,
    minorArcmin,
    condensation,
    starCount,
    brightestStarMag,
    separationArcsec,
    componentMagnitudes: secondMagnitude === undefined ? null : [draft.magnitude, secondMagnitude],
    colours: one === undefined || other === undefined ? null : [one, other],
    fieldDeg,
    distanceLy: draft.distanceLy ?? null,
    appeal: draft.appeal,
    appealReason: draft.appealReason,
    sources: Object.fromEntries(Object.keys(draft).map((field) => [SOURCED[field] ?? field, 'entered by the host'])),
  }
}

/** The magnitude of two stars as one, to the hundredth. */
const together = (one: number, other: number): number =>
  Number((-2.5 * Math.log10(10 ** (-0.4 * one) + 10 ** (-0.4 * other))).toFixed(2))

/** The columns of the list whose values stand in a draft under another name. */
const SOURCED: Readonly<Record<string, string>> = {
  secondMagnitude: 'componentMagnitudes',
  colour: 'colours',
  secondColour: 'colours',
  appealReason: 'appeal',
}

/** Nobody has measured more of it, and it stands still: a comet's place is the one that was typed in, for the whole night. */
const UNKNOWN = {
  designations: [],
  body: null,
  parent: null,
  pmRaMasYr: 0,
  pmDecMasYr: 0,
  parallaxMas: 0,
  magnitudeBand: 'V',
  magnitudeRange: null,
  bv: null,
  halfLightArcmin: null,
  branchMag: null,
  coreMagnitude: null,
  coreArcmin: null,
  angleDeg: null,
  starMagnitudes: [],
  pairAngleDeg: null,
  pairYear: null,
  hips: [],
  features: [],
  shower: null,
  distancePercent: null,
  ageMyr: null,
  note: null,
  atOnce: 1,
} as const satisfies Partial<ShowObject>
