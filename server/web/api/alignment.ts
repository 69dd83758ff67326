import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { AlignmentPair, AlignmentStar } from '../../tours/alignment.ts'
import { wallClock } from '../../tours/hours.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams, Instant, instant } from './schemas.ts'

const AlignmentQuery = Type.Object({ at: Type.Optional(Instant) })

export const alignmentRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, clock }) => {
  app.get(
    '/nights/:id/alignment',
    {
      config: { role: 'visitor' },
      schema: {
        summary: 'Pairs of stars to set driven mounts up on, best first, at an instant or now',
        params: IdParams,
        querystring: AlignmentQuery,
      },
    },
    async ({ params, query }) => {
      const { id, site } = desk.nights.find(params.id)
      const at = query.at === undefined ? clock.now() : instant('at', query.at)
      return {
        at,
        atWall: wallClock(at, site.zone),
        zone: site.zone,
        pairs: desk.alignment(id, at).map(pairJson),
      }
    },
  )
}

/** `meanErrorFactor`: how many times one star's centring error the mount then misses tonight's targets by. */
const pairJson = ({ stars, ...numbers }: AlignmentPair) => ({ ...numbers, stars: stars.map(starJson) })

const starJson = ({ direction, ...star }: AlignmentStar) => ({ ...star, ...direction })
