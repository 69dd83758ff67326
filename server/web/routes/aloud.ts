import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { eveningDate, nightHours } from '../../tours/hours.ts'
import { placeOf } from '../../tours/site.ts'
import { sunTonight } from '../../tours/sun-tonight.ts'
import { IdParams } from '../api/schemas.ts'
import { aloudPage } from '../pages/aloud.ts'
import { LookQuery } from './look.ts'
import type { PageNeeds } from './needs.ts'

export const aloudRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  app.get(
    '/nights/:id/aloud',
    { config: { role: 'visitor' }, schema: { params: IdParams, querystring: LookQuery } },
    async (request, reply) => {
      const { look = 'day' } = request.query
      const night = desk.nights.find(request.params.id)
      const evening = desk.sky.evening(eveningDate(night), placeOf(night.site), night.site.zone)
      const sun = sunTonight(night.site, evening, nightHours(night).opensAt)
      const hasTour = desk.tours.current(night.id) !== undefined
      return reply.page('aloud', aloudPage(viewerOf(request), { night, sun, hasTour, look }))
    },
  )
}
