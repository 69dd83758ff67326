import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { Desk } from '../../desk/desk.ts'
import { eveningDate } from '../../tours/hours.ts'
import { newsOf } from '../../tours/news.ts'
import type { Night } from '../../tours/night.ts'
import { placeOf } from '../../tours/site.ts'
import { IdParams } from '../api/schemas.ts'
import { type BoardSubject, boardPage } from '../pages/board.ts'
import type { Viewer } from '../pages/sheet.ts'
import { newKey } from './mark-key.ts'
import { namesFrom, type PageNeeds } from './needs.ts'

export const boardRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  app.get('/', { config: { role: 'visitor' } }, async (request, reply) => {
    const viewer = viewerOf(request)
    return reply.page('board', boardPage(viewer, boardSubject(desk, desk.nights.current(), viewer)))
  })

  app.get('/nights/:id', { config: { role: 'visitor' }, schema: { params: IdParams } }, async (request, reply) => {
    const viewer = viewerOf(request)
    const night = desk.nights.find(request.params.id)
    return reply.page('board', boardPage(viewer, boardSubject(desk, night, viewer)))
  })
}

function boardSubject(desk: Desk, night: Night | undefined, { words, mayHost }: Viewer): BoardSubject {
  const tour = night && desk.tours.current(night.id)
  const field = night && desk.marks.field(night.id)
  return {
    night,
    evening: night && desk.sky.evening(eveningDate(night), placeOf(night.site), night.site.zone),
    tour,
    state: tour && desk.tours.stateOf(tour),
    field,
    out: night && field ? newsOf(night, desk.marks.since(night.id, 0), field.at).out : [],
    go: night && desk.go.of(night.id),
    phones: night ? desk.joins.phones(night.id) : [],
    backups: mayHost ? desk.backups.status() : null,
    siteCount: desk.sites.all().length,
    telescopeCount: desk.telescopes.all().length,
    names: namesFrom(desk, words, night?.id),
    newKey,
  }
}
