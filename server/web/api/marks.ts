import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { MarkDraft } from '../../tours/mark.ts'
import { DRAFT_LIMIT } from '../bodies.ts'
import { markPace } from '../limits.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

const MarksBody = Type.Object({ marks: Type.Array(MarkDraft, { minItems: 1, maxItems: 100 }) })
const SinceQuery = Type.Object({ since: Type.Optional(Type.Integer({ minimum: 0 })) })

export const markRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, limits, roleOf }) => {
  app.get(
    '/nights/:id/marks',
    {
      config: { role: 'visitor' },
      schema: { summary: 'The acts of a night after a number', params: IdParams, querystring: SinceQuery },
    },
    async ({ params, query: { since = 0 } }) => {
      const { id, site } = desk.nights.find(params.id)
      return { marks: desk.marks.since(id, since), version: desk.marks.version(id), zone: site.zone }
    },
  )

  app.post(
    '/nights/:id/marks',
    {
      config: { role: 'operator', rateLimit: markPace(limits) },
      bodyLimit: DRAFT_LIMIT,
      schema: { summary: 'Keep acts, each once by its key', params: IdParams, body: MarksBody },
    },
    async (request) => {
      const { id, site } = desk.nights.find(request.params.id)
      const marks = desk.marks.record(id, request.body.marks, roleOf(request))
      return { marks, version: desk.marks.version(id), zone: site.zone }
    },
  )
}
