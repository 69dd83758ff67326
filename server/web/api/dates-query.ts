import { type Static, Type } from 'typebox'
import type { YearQuery } from '../../desk/dates.ts'

const Id = Type.String({ maxLength: 40 })

/** From where, from which month `YYYY-MM` on, and with which telescopes; what is left out or empty is left to the service. */
export const DatesQuery = Type.Object({
  site: Type.Optional(Id),
  from: Type.Optional(Type.String({ pattern: '^(20\\d\\d-(0[1-9]|1[0-2]))?$' })),
  row: Type.Optional(Type.Union([Type.Array(Id, { maxItems: 40 }), Id])),
})

export const DateParams = Type.Object({ date: Type.String({ pattern: '^20\\d\\d-\\d\\d-\\d\\d$' }) })

/** The question of an address. */
export const datesQuery = ({ site, from, row }: Static<typeof DatesQuery>): YearQuery => ({
  siteId: site || null,
  from: from || null,
  telescopeIds: row === undefined ? [] : [row].flat(),
})
