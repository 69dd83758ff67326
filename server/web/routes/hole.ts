import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { openParts, SkyParts } from '../api/open-parts.ts'
import { IdParams, Instant, instant } from '../api/schemas.ts'
import { holePage } from '../pages/hole.ts'
import { namesFrom, type PageNeeds } from './needs.ts'

const HoleQuery = Type.Object({
  open: Type.Optional(SkyParts),
  at: Type.Optional(Instant),
  look: Type.Optional(Type.Union([Type.Literal('day'), Type.Literal('lamp')])),
})

export const holeRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, clock, viewerOf }) => {
  app.get(
    '/nights/:id/hole',
    { config: { role: 'visitor' }, schema: { params: IdParams, querystring: HoleQuery } },
    async (request, reply) => {
      const { open, at, look = 'lamp' } = request.query
      const night = desk.nights.find(request.params.id)
      const hole = await desk.hole(night.id, openParts(open), at === undefined ? clock.now() : instant('at', at))
      const viewer = viewerOf(request)
      const names = namesFrom(desk, viewer.words, night.id)
      const hasTour = desk.tours.current(night.id) !== undefined
      return reply.page('hole', holePage(viewer, { night, hole, asked: at ?? null, look, hasTour, names }))
    },
  )
}
