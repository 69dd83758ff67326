import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

export const learningRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk }) => {
  app.get(
    '/sites/:id/newcomers',
    {
      config: { role: 'visitor' },
      schema: {
        summary: 'How much more light newcomers need at a site than a laboratory’s observers, told by the marks',
        params: IdParams,
      },
    },
    async ({ params }) => {
      const { id, zone } = desk.sites.find(params.id)
      return { siteId: id, zone, ...(await desk.learning.ofSite(id)), inUse: desk.learning.inUse(id) ?? null }
    },
  )
}
