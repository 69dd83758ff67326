import { type Static, Type } from 'typebox'
import type { ThingQuery } from '../../desk/thing-kinds.ts'
import { OBJECT_KINDS } from '../../tours/target.ts'
import { SEARCH_LETTERS } from './schemas.ts'

/** A filter that may be left out or left empty, as a form without scripts sends it. */
const filter = (pattern: string) => Type.Optional(Type.String({ pattern: `^(${pattern})?$`, maxLength: 40 }))
const KINDS = OBJECT_KINDS.join('|')

/** From where, and for which month `YYYY-MM`. */
export const WhenceFields = {
  site: filter('[\\w-]+'),
  month: filter('20\\d\\d-(0[1-9]|1[0-2])'),
}
export const WhenceQuery = Type.Object(WhenceFields)

/** What a list of things is asked for; `evening` is a month, 1 to 12, `good` is `true`. */
export const ThingParams = Type.Object({
  q: Type.Optional(Type.String({ maxLength: SEARCH_LETTERS })),
  kind: filter(KINDS),
  constellation: filter('[A-Z][A-Za-z]{2}'),
  evening: filter('[1-9]|1[0-2]'),
  ...WhenceFields,
  good: filter('true'),
  page: Type.Optional(Type.Integer({ minimum: 1, maximum: 1000 })),
  limit: Type.Optional(Type.Integer({ minimum: 1, maximum: 50 })),
})
export type ThingParams = Static<typeof ThingParams>

const PER_PAGE = 30

/** The site and month of an address; null for what it leaves open. */
export const whenceOf = ({ site, month }: Static<typeof WhenceQuery>) => ({
  siteId: site || null,
  month: month || null,
})

/** A question for the list from the parameters of an address. */
export const thingQuery = (params: ThingParams): ThingQuery => ({
  ...whenceOf(params),
  text: (params.q ?? '').trim(),
  kind: OBJECT_KINDS.find((kind) => kind === params.kind) ?? null,
  constellation: params.constellation || null,
  evening: params.evening ? Number(params.evening) : null,
  isGoodOnly: params.good === 'true',
  page: params.page ?? 1,
  perPage: params.limit ?? PER_PAGE,
})
