import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { telescopeProblems } from '../../tours/problems.ts'
import { TelescopeDraft } from '../../tours/telescope.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams, refuseDraft } from './schemas.ts'

export const telescopeRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk }) => {
  app.get('/telescopes', { config: { role: 'visitor' }, schema: { summary: 'The kit' } }, async () => ({
    telescopes: desk.telescopes.all(),
  }))

  app.get(
    '/telescopes/:id',
    { config: { role: 'visitor' }, schema: { summary: 'One telescope', params: IdParams } },
    async ({ params }) => desk.telescopes.find(params.id),
  )

  app.post(
    '/telescopes',
    {
      config: { role: 'host' },
      attachValidation: true,
      schema: { summary: 'Add a telescope', body: TelescopeDraft },
    },
    async (request, reply) => {
      refuseDraft(request, () => telescopeProblems(request.body))
      const telescope = desk.telescopes.add(request.body)
      return reply.code(201).header('location', `/api/telescopes/${telescope.id}`).send(telescope)
    },
  )

  app.put(
    '/telescopes/:id',
    {
      config: { role: 'host' },
      attachValidation: true,
      schema: { summary: 'Change a telescope', params: IdParams, body: TelescopeDraft },
    },
    async (request) => {
      refuseDraft(request, () => telescopeProblems(request.body))
      return desk.telescopes.change(request.params.id, request.body)
    },
  )

  for (const act of ['put-away', 'take-out'] as const) {
    app.post(
      `/telescopes/:id/${act}`,
      { config: { role: 'host' }, schema: { summary: SUMMARIES[act], params: IdParams } },
      async ({ params }) => desk.telescopes.putAway(params.id, act === 'put-away'),
    )
  }
}

const SUMMARIES = { 'put-away': 'Offer it to no new night', 'take-out': 'Offer it again' }
