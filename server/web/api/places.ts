import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { ApiNeeds } from './needs.ts'
import { SEARCH_LIMIT, SearchQuery } from './schemas.ts'

export const placeRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk }) => {
  app.get(
    '/places',
    { config: { role: 'visitor' }, schema: { summary: 'Search towns', querystring: SearchQuery } },
    async ({ query: { q, limit = SEARCH_LIMIT } }) => ({ places: desk.places.search(q, limit) }),
  )
}
