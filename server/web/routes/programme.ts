import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { IdParams } from '../api/schemas.ts'
import { programmePage } from '../pages/programme.ts'
import { namesFrom, type PageNeeds } from './needs.ts'

const ByQuery = Type.Object({ by: Type.Optional(Type.Union([Type.Literal('telescope'), Type.Literal('time')])) })

export const programmeRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  app.get(
    '/nights/:id/programme',
    { config: { role: 'visitor' }, schema: { params: IdParams, querystring: ByQuery } },
    async (request, reply) => {
      const viewer = viewerOf(request)
      const night = desk.nights.find(request.params.id)
      const names = namesFrom(desk, viewer.words.settings.language)
      const subject = { night, tour: desk.tours.latest(night.id), by: request.query.by ?? 'telescope', names } as const
      return reply.page('programme', programmePage(viewer, subject))
    },
  )

  app.post(
    '/nights/:id/programme',
    { config: { role: 'host' }, schema: { params: IdParams } },
    async (request, reply) => {
      const { id } = desk.nights.find(request.params.id)
      await desk.tours.build(id)
      return reply.redirect(`/nights/${id}/programme`, 303)
    },
  )
}
