import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { passesIn } from '../../tours/own-pass.ts'
import { IdParams, Instant, instant, ObjectKey } from '../api/schemas.ts'
import { nightObjectsPage } from '../pages/night-objects.ts'
import { objectTonightPage } from '../pages/object-tonight.ts'
import { namesFrom, type PageNeeds } from './needs.ts'
import { SearchQuery, searched } from './searched.ts'
import { telescopeHits } from './telescope-hits.ts'

const Params = Type.Object({ ...IdParams.properties, key: ObjectKey })
const AtQuery = Type.Object({ at: Type.Optional(Instant) })

export const objectTonightRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  app.get(
    '/nights/:id/objects',
    { config: { role: 'visitor', isKept: true }, schema: { params: IdParams, querystring: SearchQuery } },
    async (request, reply) => {
      const night = desk.nights.find(request.params.id)
      const query = searched(request.query.q)
      const hits = telescopeHits(desk, query)
      const passes = passesIn(night, desk.own.all())
      const hasTour = desk.tours.current(night.id) !== undefined
      return reply.page('night-objects', nightObjectsPage(viewerOf(request), { night, hasTour, query, hits, passes }))
    },
  )

  app.get(
    '/nights/:id/objects/:key',
    { config: { role: 'visitor', isKept: true }, schema: { params: Params, querystring: AtQuery } },
    async (request, reply) => {
      const { id, key } = request.params
      const { canonicalKey } = desk.objects.find(key)
      if (canonicalKey !== key) return reply.redirect(`/nights/${id}/objects/${canonicalKey}`, 308)
      const { at } = request.query
      const tonight = await desk.tonight(id, key, at === undefined ? null : instant('at', at))
      const viewer = viewerOf(request)
      const names = namesFrom(desk, viewer.words, id)
      const night = desk.nights.find(id)
      const hasTour = desk.tours.current(id) !== undefined
      return reply.page('object-tonight', objectTonightPage(viewer, { night, tonight, hasTour, names }))
    },
  )
}
