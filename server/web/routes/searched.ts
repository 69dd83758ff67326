import { Type } from 'typebox'
import { SEARCH_LETTERS } from '../api/schemas.ts'

/** What an address asks of a search: any text, since nobody is sent away for pasting too much into it. */
export const SearchQuery = Type.Object({ q: Type.Optional(Type.String()) })

/** As much of what was typed into a search as is looked up. */
export const searched = (q = ''): string => [...q.trim()].slice(0, SEARCH_LETTERS).join('')
