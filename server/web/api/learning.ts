import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { NewcomerFactor } from '../../sight/newcomer.ts'
import { rounded } from '../../sight/ramp.ts'
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
      const { site, telescopes, ...counts } = await desk.learning.ofSite(id)
      return {
        siteId: id,
        zone,
        site: factorJson(site),
        telescopes: telescopes.map(factorJson),
        ...counts,
        inUse: desk.learning.inUse(id) ?? null,
      }
    },
  )
}

/** A factor to the hundredth; it is reckoned on a grid that is no finer. */
const factorJson = <Factor extends NewcomerFactor>(told: Factor) => ({
  ...told,
  factor: rounded(told.factor, 2),
  low: rounded(told.low, 2),
  high: rounded(told.high, 2),
})
