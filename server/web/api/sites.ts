import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { siteProblems } from '../../tours/problems.ts'
import { SiteDraft } from '../../tours/site.ts'
import { DRAFT_LIMIT } from '../bodies.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams, refuseDraft } from './schemas.ts'

export const siteRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk }) => {
  app.get('/sites', { config: { role: 'visitor' }, schema: { summary: 'All sites' } }, async () => ({
    sites: desk.sites.all(),
  }))

  app.get(
    '/sites/:id',
    { config: { role: 'visitor' }, schema: { summary: 'One site', params: IdParams } },
    async ({ params }) => desk.sites.find(params.id),
  )

  app.post(
    '/sites',
    {
      config: { role: 'host' },
      bodyLimit: DRAFT_LIMIT,
      attachValidation: true,
      schema: { summary: 'Add a site', body: SiteDraft },
    },
    async (request, reply) => {
      refuseDraft(request, () => siteProblems(request.body))
      const site = desk.sites.add(request.body)
      return reply.code(201).header('location', `/api/sites/${site.id}`).send(site)
    },
  )

  app.put(
    '/sites/:id',
    {
      config: { role: 'host' },
      bodyLimit: DRAFT_LIMIT,
      attachValidation: true,
      schema: { summary: 'Change a site', params: IdParams, body: SiteDraft },
    },
    async (request) => {
      refuseDraft(request, () => siteProblems(request.body))
      return desk.sites.change(request.params.id, request.body)
    },
  )
}
