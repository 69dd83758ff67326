import type { FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import { invalid, type Problem } from '../../errors.ts'
import { isZone } from '../../tours/hours.ts'

/** Years that the sky floor answers for. */
const YEARS = { minimum: 1900, maximum: 2100 } as const

export const IdParams = Type.Object({ id: Type.String({ minLength: 1, maxLength: 40 }) })
/** The number of a version of a programme, from 1. */
export const VersionNumber = Type.Integer({ minimum: 1, maximum: 1_000_000 })
export const ObjectKey = Type.String({ minLength: 1, maxLength: 60 })

/** UTC, ISO 8601, with Z. */
export const Instant = Type.String({
  pattern: '^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d{1,3})?)?Z$',
  description: 'UTC, ISO 8601, with Z',
})

/** Degrees, north and east positive; metres above the sea. */
export const PlaceFields = {
  latitudeDeg: Type.Number({ minimum: -90, maximum: 90 }),
  longitudeDeg: Type.Number({ minimum: -180, maximum: 180 }),
  heightM: Type.Number({ minimum: -430, maximum: 6000 }),
}

/** The longest text that is looked up. */
export const SEARCH_LETTERS = 80

/** What a search takes: the words looked for, and how many answers at most. */
export const SearchQuery = Type.Object({
  q: Type.String({ maxLength: SEARCH_LETTERS }),
  limit: Type.Optional(Type.Integer({ minimum: 1, maximum: 50 })),
})
export const SEARCH_LIMIT = 20

/** The instant that a text with Z names, 1900 to 2100; a Fault that names the field when there is none. */
export function instant(field: string, text: string): Date {
  const at = new Date(text)
  if (Number.isNaN(at.getTime()) || !at.toISOString().startsWith(text.slice(0, 10))) {
    throw invalid([{ field, key: 'problem.no-such-instant' }])
  }
  const year = at.getUTCFullYear()
  if (year < YEARS.minimum || year > YEARS.maximum) throw invalid([{ field, key: 'problem.range', values: YEARS }])
  return at
}

/** The zone itself when it is known; a Fault that names the field otherwise. */
export function knownZone(field: string, zone: string): string {
  if (!isZone(zone)) throw invalid([{ field, key: 'problem.zone-unknown' }])
  return zone
}

/** Lets a draft pass whose schema held; otherwise throws what is wrong, in the words of its kind where there are such. */
export function refuseDraft(request: FastifyRequest, problemsOf: () => readonly Problem[]): void {
  if (!request.validationError) return
  const problems = problemsOf()
  throw problems.length > 0 ? invalid(problems) : request.validationError
}
