import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { IdParams } from '../api/schemas.ts'
import { linePage } from '../pages/line.ts'
import { programmeNotes } from '../pages/programme-notes.ts'
import { newKey } from './mark-key.ts'
import { namesFrom, type PageNeeds } from './needs.ts'

export const lineRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  app.get('/nights/:id/line', { config: { role: 'visitor' }, schema: { params: IdParams } }, async (request, reply) => {
    const night = desk.nights.find(request.params.id)
    const tour = desk.tours.current(night.id)
    if (tour === undefined) return reply.redirect(`/nights/${night.id}/programme`, 303)
    const viewer = viewerOf(request)
    const line = await desk.line(night.id)
    const names = namesFrom(desk, viewer.words, night.id)
    const notes = programmeNotes(viewer, { night, tour, state: desk.tours.stateOf(tour), newKey })
    return reply.page('line', linePage(viewer, { night, line, names, notes }))
  })
}
