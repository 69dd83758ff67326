import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyRequest } from 'fastify'
import { type Static, Type } from 'typebox'
import { Fault, invalid } from '../../errors.ts'
import { skyMagOfClass } from '../../sight/site-light.ts'
import { SiteDraft } from '../../tours/site.ts'
import { DRAFT_LIMIT } from '../bodies.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams, refuseDraft } from './schemas.ts'

/** A site as JSON may also say its sky by class. */
const SiteBody = Type.Object({
  ...SiteDraft.properties,
  skyMag: Type.Optional({
    ...SiteDraft.properties.skyMag,
    description: 'Or skyClass: V magnitudes per square arcsecond at the zenith',
  }),
  skyClass: Type.Optional(
    Type.Integer({ minimum: 1, maximum: 9, description: 'In place of skyMag: 1 darkest to 9 inner city' }),
  ),
})

/** Refuses what the schema refuses, and with it a sky that is not said at all. */
function refuseSite(request: FastifyRequest): void {
  const { body, validationError } = request
  refuseDraft(request, () => {
    const isUnsaid = body instanceof Object && !Array.isArray(body) && !('skyMag' in body) && !('skyClass' in body)
    return validationError instanceof Fault && isUnsaid ? [...validationError.problems, SKY_UNSAID] : []
  })
}

const SKY_UNSAID = { field: 'skyMag', key: 'problem.required' }

function draftOf({ skyClass, skyMag, ...rest }: Static<typeof SiteBody>): SiteDraft {
  if (skyClass !== undefined && skyMag !== undefined) {
    throw invalid([{ field: 'skyClass', key: 'problem.said-twice', values: { other: 'skyMag' } }])
  }
  const said = skyClass === undefined ? skyMag : skyMagOfClass(skyClass)
  if (said === undefined) throw invalid([SKY_UNSAID])
  return { ...rest, skyMag: said }
}

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
      schema: { summary: 'Add a site', body: SiteBody },
    },
    async (request, reply) => {
      refuseSite(request)
      const site = desk.sites.add(draftOf(request.body))
      return reply.code(201).header('location', `/api/sites/${site.id}`).send(site)
    },
  )

  app.put(
    '/sites/:id',
    {
      config: { role: 'host' },
      bodyLimit: DRAFT_LIMIT,
      attachValidation: true,
      schema: { summary: 'Change a site', params: IdParams, body: SiteBody },
    },
    async (request) => {
      refuseSite(request)
      return desk.sites.change(request.params.id, draftOf(request.body))
    },
  )
}
