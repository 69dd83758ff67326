import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { nightHours } from '../../tours/hours.ts'
import { type Night, NightDraft } from '../../tours/night.ts'
import { nightProblems } from '../../tours/problems.ts'
import { DRAFT_LIMIT } from '../bodies.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams, refuseDraft } from './schemas.ts'

/** A night as JSON: with its hours as instants, and the zone of its site. */
const nightJson = (night: Night) => ({ ...night, ...nightHours(night), zone: night.site.zone })

export const nightRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, clock }) => {
  app.get('/nights', { config: { role: 'visitor' }, schema: { summary: 'All nights' } }, async () => ({
    nights: desk.nights.all().map(nightJson),
  }))

  app.get(
    '/nights/:id',
    { config: { role: 'visitor' }, schema: { summary: 'One night', params: IdParams } },
    async ({ params }) => nightJson(desk.nights.find(params.id)),
  )

  app.post(
    '/nights',
    {
      config: { role: 'host' },
      bodyLimit: DRAFT_LIMIT,
      attachValidation: true,
      schema: { summary: 'Add a night', body: NightDraft },
    },
    async (request, reply) => {
      refuseDraft(request, () => nightProblems(request.body, clock.now(), 'UTC'))
      const night = desk.nights.add(request.body)
      return reply.code(201).header('location', `/api/nights/${night.id}`).send(nightJson(night))
    },
  )
}
