import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { Clock } from '../../clock.ts'
import type { Desk } from '../../desk/desk.ts'
import { aheadOf, signOf } from '../live.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

const VERSION = /^([A-Za-z0-9_-]{1,40})\.(\d{1,12})$/
const Version = Type.String({ pattern: VERSION.source })
const ChangesQuery = Type.Object({ since: Type.Optional(Version) })

export const liveRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, clock, live, limits, whoOf }) => {
  app.get(
    '/nights/:id/changes',
    {
      config: { role: 'visitor' },
      schema: { summary: 'What happened after a version of the night', params: IdParams, querystring: ChangesQuery },
    },
    async (request) => changes(desk, clock, request.params.id, request.query.since, whoOf(request) !== undefined),
  )

  app.get(
    '/nights/:id/live',
    {
      config: { role: 'visitor', rateLimit: false },
      exposeHeadRoute: false,
      schema: { summary: 'The same as a stream of events', params: IdParams, querystring: ChangesQuery },
    },
    async (request, reply) => {
      const { id } = request.params
      const header = request.headers['last-event-id']
      // A page that opens a new stream cannot set the header; the browser that takes up a broken one sets it.
      const since = typeof header === 'string' ? header : request.query.since
      const who = whoOf(request)
      const data = changes(desk, clock, id, since, who !== undefined)
      if (!live.hasRoom(request.ip, limits.live)) return reply.code(503).header('retry-after', '5').send()
      const first = { id: data.version, event: 'marks', data } as const
      return reply.type('text/event-stream').send(live.open(id, request.ip, first, who?.id))
    },
  )
}

/**
 * Which marks came after a version, and the state of the field. When the version is none of ours or not given: all marks
 * for a phone that acts, since it looks for its own among them, and none for a visitor, who reads the state alone.
 */
function changes(desk: Desk, { speed }: Clock, nightId: string, since: string | undefined, acts: boolean) {
  const { id, site } = desk.nights.find(nightId)
  const version = desk.marks.version(id)
  const seq = seqAfter(since, version)
  return {
    version,
    isSnapshot: seq === null,
    marks: seq === null && !acts ? [] : desk.marks.since(id, seq ?? 0).map(signOf),
    field: aheadOf(desk.marks.field(id)),
    tourVersion: desk.tours.current(id)?.version ?? null,
    zone: site.zone,
    speed,
  }
}

/** The number in a version that a reader has reached; null when it says none, one of another epoch, or one yet to come. */
function seqAfter(since: string | undefined, version: string): number | null {
  const [, epoch, newest] = VERSION.exec(version) ?? []
  const [, sinceEpoch, seq] = VERSION.exec(since ?? '') ?? []
  return seq !== undefined && sinceEpoch === epoch && Number(seq) <= Number(newest) ? Number(seq) : null
}
