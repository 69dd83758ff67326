import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { IdParams } from '../api/schemas.ts'
import { setUpPage } from '../pages/set-up.ts'
import { LookQuery } from './look.ts'
import type { PageNeeds } from './needs.ts'

export const setUpRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  app.get(
    '/nights/:id/set-up',
    { config: { role: 'visitor' }, schema: { params: IdParams, querystring: LookQuery } },
    async (request, reply) => {
      const night = desk.nights.find(request.params.id)
      const setUp = await desk.alignment.setUp(night.id)
      const { look = 'day' } = request.query
      return reply.page('set-up', setUpPage(viewerOf(request), { night, setUp, look }))
    },
  )
}
