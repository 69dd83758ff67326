import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { lineNowOf } from '../../desk/line-now.ts'
import { lineHelperPage } from '../pages/line-page.ts'
import { LookQuery, lookOf } from './look.ts'
import { newKeyIn } from './mark-key.ts'
import { namesFrom, type PageNeeds } from './needs.ts'
import { withinOf } from './within.ts'

const Params = Type.Object({ nightId: Type.String({ minLength: 1, maxLength: 40 }) })

export const linePageRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  app.get(
    '/field/:nightId/line',
    { config: { role: 'visitor', isKept: true }, schema: { params: Params, querystring: LookQuery } },
    async (request, reply) => {
      const night = desk.nights.find(request.params.nightId)
      const look = lookOf(request, reply, { look: request.query.look, path: '/field', usual: 'lamp' })
      const tour = desk.tours.current(night.id)
      const beside = (await withinOf(reply)(desk.beside(night.id, tour))) ?? []
      const viewer = viewerOf(request)
      const names = namesFrom(desk, viewer.words, night.id)
      const line = lineNowOf(desk, night.id)
      const version = desk.marks.version(night.id)
      const newKey = newKeyIn(reply)
      const subject = { night, line, tourVersion: tour?.version ?? 0, version, beside, names, look, newKey }
      return reply.page('line-page', lineHelperPage(viewer, subject))
    },
  )
}
