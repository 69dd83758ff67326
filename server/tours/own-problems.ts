import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { isAskedOf, isNeeded, isOwnKind, KIND_FIELDS } from './own-kinds.ts'
import { OwnObjectDraft } from './own-object.ts'
import { passProblems } from './own-pass.ts'
import { schemaProblems } from './schema-problems.ts'

const TEXT_FIELDS = ['name', 'appealReason', 'colour', 'secondColour'] as const

/** What is wrong with a thing as typed in, a problem a field; [] when it can be kept. */
export function ownObjectProblems(draft: unknown): Problem[] {
  const ofKind = kindProblems(draft)
  const isFine = Value.Check(OwnObjectDraft, draft)
  if (isFine && ofKind.length === 0) return [...textProblems(draft), ...senseProblems(draft), ...passProblems(draft)]
  const ofSchema = isFine ? [] : schemaProblems(Value.Errors(OwnObjectDraft, draft), OwnObjectDraft)
  return [...ofSchema.filter(({ field }) => !ofKind.some((other) => other.field === field)), ...ofKind]
}

/** Each kind needs some fields, and has no use for others: a size typed for a star is a mistake in one of the two. */
function kindProblems(draft: unknown): Problem[] {
  if (typeof draft !== 'object' || draft === null || !('kind' in draft) || !isOwnKind(draft.kind)) return []
  const { kind } = draft
  const given = new Map<string, unknown>(Object.entries(draft))
  return KIND_FIELDS.flatMap((field) => {
    if (given.get(field) === undefined) return isNeeded(kind, field) ? [{ field, key: 'problem.required' }] : []
    return isAskedOf(kind, field) ? [] : [{ field, key: 'problem.not-of-kind' }]
  })
}

/** Each text is one line, as paper has room for one. */
const textProblems = (draft: OwnObjectDraft): Problem[] =>
  TEXT_FIELDS.flatMap((field) => {
    const text = draft[field]
    if (text === undefined) return []
    if (text.trim() === '') return [{ field, key: 'problem.too-short', values: { minimum: 1 } }]
    return /[\p{Cc}\u2028\u2029]/u.test(text) ? [{ field, key: 'problem.one-line' }] : []
  })

/** What each field allows by itself, and the fields together do not. */
function senseProblems(draft: OwnObjectDraft): Problem[] {
  const { magnitude, majorArcmin = 0, minorArcmin = 0, secondMagnitude = magnitude, brightestStarMag } = draft
  const wrong = (isWrong: boolean, field: keyof OwnObjectDraft, key: string) => (isWrong ? [{ field, key }] : [])
  return [
    ...wrong(minorArcmin > majorArcmin, 'minorArcmin', 'problem.size-order'),
    ...wrong(secondMagnitude < magnitude, 'secondMagnitude', 'problem.pair-order'),
    ...wrong(
      brightestStarMag !== undefined && brightestStarMag < magnitude,
      'brightestStarMag',
      'problem.star-over-all',
    ),
    ...wrong(draft.colour === undefined && draft.secondColour !== undefined, 'colour', 'problem.required'),
    ...wrong(draft.secondColour === undefined && draft.colour !== undefined, 'secondColour', 'problem.required'),
  ]
}
