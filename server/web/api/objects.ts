import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { ApiNeeds } from './needs.ts'
import { ObjectKey, SEARCH_LIMIT, SearchQuery } from './schemas.ts'

const KeyParams = Type.Object({ key: ObjectKey })

export const objectRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  app.get(
    '/objects',
    { config: { role: 'visitor' }, schema: { summary: 'Search the catalogue', querystring: SearchQuery } },
    async ({ query: { q, limit = SEARCH_LIMIT } }) => ({ objects: desk.objects.search(q, limit) }),
  )

  app.get(
    '/objects/:key',
    {
      config: { role: 'visitor' },
      schema: { summary: 'One object by its key; any other designation leads there by 308', params: KeyParams },
    },
    async (request, reply) => {
      const { key } = request.params
      const { canonicalKey, object } = desk.objects.find(key)
      if (canonicalKey !== key) return reply.redirect(`/api/objects/${encodeURIComponent(canonicalKey)}`, 308)
      const story = desk.objects.story(key, wordsFor(request).settings.language) ?? null
      return reply.send({ object, isOutreach: desk.objects.show(key) !== undefined, story })
    },
  )
}
