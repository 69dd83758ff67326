import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { invalid } from '../../errors.ts'
import { CalendarDate } from '../../tours/night.ts'
import type { ApiNeeds } from './needs.ts'
import { Instant, instant, knownZone, PlaceFields } from './schemas.ts'

const MAX_KEYS = 50

const PlacesQuery = Type.Object({
  at: Instant,
  ...PlaceFields,
  keys: Type.String({
    minLength: 1,
    maxLength: 2000,
    description: `object keys, comma separated, ${MAX_KEYS} at most`,
  }),
})
const EveningQuery = Type.Object({
  date: CalendarDate,
  ...PlaceFields,
  zone: Type.String({ minLength: 1, maxLength: 60 }),
})

export const skyRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk }) => {
  app.get(
    '/sky/places',
    { config: { role: 'visitor' }, schema: { summary: 'Where objects stand', querystring: PlacesQuery } },
    async ({ query: { at, keys, ...place } }) => {
      const when = instant('at', at)
      return { at: when, zone: 'UTC', places: desk.sky.places(when, place, keyList(keys)) }
    },
  )

  app.get(
    '/sky/evening',
    { config: { role: 'visitor' }, schema: { summary: 'Sun and Moon of one evening', querystring: EveningQuery } },
    async ({ query: { date, zone, ...place } }) => {
      instant('date', `${date}T12:00Z`)
      return desk.sky.evening(date, place, knownZone('zone', zone))
    },
  )
}

function keyList(text: string): string[] {
  const keys = text.split(',').filter((key) => key !== '')
  if (keys.length > MAX_KEYS) {
    throw invalid([{ field: 'keys', key: 'problem.too-many', values: { maximum: MAX_KEYS } }])
  }
  return keys
}
