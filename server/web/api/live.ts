import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { Desk } from '../../desk/desk.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

const Version = Type.String({ pattern: '^[A-Za-z0-9_-]{1,40}\\.\\d{1,12}$' })
const ChangesQuery = Type.Object({ since: Type.Optional(Version) })

export const liveRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, live, limits }) => {
  app.get(
    '/nights/:id/changes',
    {
      config: { role: 'visitor' },
      schema: { summary: 'What happened after a version of the night', params: IdParams, querystring: ChangesQuery },
    },
    async ({ params, query }) => changes(desk, params.id, query.since),
  )

  app.get(
    '/nights/:id/live',
    {
      config: { role: 'visitor', rateLimit: false },
      exposeHeadRoute: false,
      schema: { summary: 'The same as a stream of events', params: IdParams },
    },
    async (request, reply) => {
      const { id } = request.params
      const since = request.headers['last-event-id']
      const data = changes(desk, id, typeof since === 'string' ? since : undefined)
      if (!live.hasRoom(request.ip, limits.live)) return reply.code(503).header('retry-after', '5').send()
      return reply.type('text/event-stream').send(live.open(id, request.ip, { id: data.version, event: 'marks', data }))
    },
  )
}

/** The marks after a version and the state of the field; all marks when the version is of another epoch or not given. */
function changes(desk: Desk, nightId: string, since: string | undefined) {
  const { id, site } = desk.nights.find(nightId)
  const version = desk.marks.version(id)
  const [epoch] = version.split('.')
  const [sinceEpoch, seq] = since?.split('.') ?? []
  const isSnapshot = sinceEpoch !== epoch
  return {
    version,
    isSnapshot,
    marks: desk.marks.since(id, isSnapshot ? 0 : Number(seq)),
    field: desk.marks.field(id),
    tourVersion: desk.tours.latest(id)?.version ?? null,
    zone: site.zone,
  }
}
