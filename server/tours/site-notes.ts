import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { schemaProblems } from './schema-problems.ts'

/** What the host must know of a site, in the order in which one meets it on the way in. */
export const NOTE_KEYS = [
  'access',
  'parking',
  'ground',
  'wheelchair',
  'lamps',
  'sprinklers',
  'power',
  'toilets',
  'mobile',
  'curfew',
] as const

const Note = Type.String({ maxLength: 200 })
export const MOST_OWN_LINES = 12

/** What is known of each, '' where nobody has asked yet, and what the host adds to ask or see to. */
export const SiteNotes = Type.Object({
  access: Note,
  parking: Note,
  ground: Note,
  wheelchair: Note,
  lamps: Note,
  sprinklers: Note,
  power: Note,
  toilets: Note,
  mobile: Note,
  curfew: Note,
  own: Type.Array(Type.String({ minLength: 1, maxLength: 120 }), { maxItems: MOST_OWN_LINES }),
})
export type SiteNotes = Static<typeof SiteNotes>

/** A site of which nobody has written anything down. */
export const NO_NOTES: SiteNotes = {
  access: '',
  parking: '',
  ground: '',
  wheelchair: '',
  lamps: '',
  sprinklers: '',
  power: '',
  toilets: '',
  mobile: '',
  curfew: '',
  own: [],
}

/** What is wrong with notes as typed in; [] when they can be kept. */
export const siteNoteProblems = (draft: unknown): Problem[] =>
  Value.Check(SiteNotes, draft) ? [] : schemaProblems(Value.Errors(SiteNotes, draft), SiteNotes)
