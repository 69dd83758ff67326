import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { constellationOf } from '../sky/constellation.ts'
import { schemaProblems } from './schema-problems.ts'
import type { ShowObject } from './target.ts'

export const OWN_KINDS = ['comet', 'star'] as const

/**
 * A comet, or a star that is there tonight only, as the host types it in: its ICRS place at epoch J2000.0 in degrees, its
 * V magnitude (of a comet the whole light), a comet's coma in arcminutes and how condensed it is, 0 (an even glow) to 9
 * (like a star), and its delight for a newcomer, 0 to 1, with the reason.
 */
export const OwnObjectDraft = Type.Object({
  name: Type.String({ minLength: 1, maxLength: 60 }),
  kind: Type.Union([Type.Literal('comet'), Type.Literal('star')]),
  raDeg: Type.Number({ minimum: 0, exclusiveMaximum: 360 }),
  decDeg: Type.Number({ minimum: -90, maximum: 90 }),
  magnitude: Type.Number({ minimum: -10, maximum: 15 }),
  /** Both are left out for a star. */
  comaArcmin: Type.Optional(Type.Number({ minimum: 0.1, maximum: 180 })),
  condensation: Type.Optional(Type.Integer({ minimum: 0, maximum: 9 })),
  appeal: Type.Number({ minimum: 0, maximum: 1 }),
  appealReason: Type.String({ minLength: 1, maxLength: 160 }),
})
export type OwnObjectDraft = Readonly<Static<typeof OwnObjectDraft>>

const COMET_FIELDS = ['comaArcmin', 'condensation'] as const
const TEXT_FIELDS = ['name', 'appealReason'] as const
const KEY_START = 'own-'

/** True for the key of a thing that a host entered, on the list still or not. */
export const isOwnKey = (key: string): boolean => key.startsWith(KEY_START)

/** What is wrong with a comet or star as typed in; [] when it can be kept. */
export function ownObjectProblems(draft: unknown): Problem[] {
  if (!Value.Check(OwnObjectDraft, draft)) {
    return schemaProblems(Value.Errors(OwnObjectDraft, draft), OwnObjectDraft)
  }
  return [...textProblems(draft), ...cometProblems(draft)]
}

/** Either text is one line, as paper has room for one. */
const textProblems = (draft: OwnObjectDraft): Problem[] =>
  TEXT_FIELDS.flatMap((field) => {
    if (draft[field].trim() === '') return [{ field, key: 'problem.too-short', values: { minimum: 1 } }]
    return /[\p{Cc}\u2028\u2029]/u.test(draft[field]) ? [{ field, key: 'problem.one-line' }] : []
  })

const cometProblems = (draft: OwnObjectDraft): Problem[] =>
  COMET_FIELDS.flatMap((field) => {
    const isGiven = draft[field] !== undefined
    if (draft.kind === 'comet') return isGiven ? [] : [{ field, key: 'problem.required' }]
    return isGiven ? [{ field, key: 'problem.star-with-coma' }] : []
  })

/** The object of the list that a draft stands for, under the key `own-<id>`; the draft must have no problem. */
export function ownObject(draft: OwnObjectDraft, id: string): ShowObject {
  const { kind, raDeg, decDeg, magnitude, comaArcmin = null, condensation = null, appeal } = draft
  return {
    ...UNKNOWN,
    key: `${KEY_START}${id}`,
    name: draft.name.trim(),
    kind,
    raDeg,
    decDeg,
    constellation: constellationOf(raDeg, decDeg),
    magnitude,
    majorArcmin: comaArcmin,
    minorArcmin: comaArcmin,
    condensation,
    appeal,
    appealReason: draft.appealReason.trim(),
  }
}

/** Nobody has measured more of it, and it stands still: a comet's place is the one that was typed in, for the whole night. */
const UNKNOWN = {
  designations: [],
  body: null,
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
  brightestStarMag: null,
  starCount: null,
  starMagnitudes: [],
  componentMagnitudes: null,
  separationArcsec: null,
  pairAngleDeg: null,
  pairYear: null,
  colours: null,
  hips: [],
  fieldDeg: null,
  features: [],
  distanceLy: null,
  atOnce: 1,
  sources: Object.fromEntries(
    ['name', 'raDeg', 'decDeg', 'magnitude', 'majorArcmin', 'condensation', 'appeal'].map((column) => [
      column,
      'entered by the host',
    ]),
  ),
} as const satisfies Partial<ShowObject>
