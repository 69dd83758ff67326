import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { schemaProblems } from './schema-problems.ts'

const Line = Type.String({ maxLength: 70 })

/** What was agreed with the school of a visiting class; '' and null where nothing was, so that a pen may fill it in. */
export const ClassVisit = Type.Object({
  school: Line,
  meet: Line,
  /** Where the children are fetched, or the bus waits. */
  fetch: Line,
  /** Who decides about cloud, by when, and where it is announced. */
  decides: Line,
  decidesBy: Line,
  announced: Line,
  toilets: Line,
  warm: Line,
  needs: Line,
  adultsPerGroup: Type.Union([Type.Integer({ minimum: 1, maximum: 10 }), Type.Null()]),
  /** True where the letter asks the parents about photos. */
  asksPhotos: Type.Boolean(),
})
export type ClassVisit = Static<typeof ClassVisit>

/** The lines of a visit that are free text. */
export const VISIT_LINES = [
  'school',
  'meet',
  'fetch',
  'decides',
  'decidesBy',
  'announced',
  'toilets',
  'warm',
  'needs',
] as const

/** A visit of which nothing is agreed yet. */
export const NO_VISIT: ClassVisit = {
  school: '',
  meet: '',
  fetch: '',
  decides: '',
  decidesBy: '',
  announced: '',
  toilets: '',
  warm: '',
  needs: '',
  adultsPerGroup: null,
  asksPhotos: true,
}

/** What is wrong with a visit as typed in; [] when it can be kept. */
export const classVisitProblems = (draft: unknown): Problem[] =>
  Value.Check(ClassVisit, draft) ? [] : schemaProblems(Value.Errors(ClassVisit, draft), ClassVisit)
