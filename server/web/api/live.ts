import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { Desk } from '../../desk/desk.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

const VERSION = /^([A-Za-z0-9_-]{1,40})\.(\d{1,12})$/
const Version = Type.String({ pattern: VERSION.source })
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

/** The marks after a version and the state of the field; all marks when the version is none of ours or not given. */
function changes(desk: Desk, nightId: string, since: string | undefined) {
  const { id, site } = desk.nights.find(nightId)
  const version = desk.marks.version(id)
  const seq = seqAfter(since, version)
  return {
    version,
    isSnapshot: seq === null,
    marks: desk.marks.since(id, seq ?? 0),
    field: desk.marks.field(id),
    tourVersion: desk.tours.current(id)?.version ?? null,
    zone: site.zone,
  }
}

/** The number in a version that a reader has reached; null when it says none, one of another epoch, or one yet to come. */
function seqAfter(since: string | undefined, version: string): number | null {
  const [, epoch, newest] = VERSION.exec(version) ?? []
  const [, sinceEpoch, seq] = VERSION.exec(since ?? '') ?? []
  return seq !== undefined && sinceEpoch === epoch && Number(seq) <= Number(newest) ? Number(seq) : null
}
