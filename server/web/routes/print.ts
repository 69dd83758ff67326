import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import { Fault } from '../../errors.ts'
import { eveningDate } from '../../tours/hours.ts'
import { placeOf } from '../../tours/site.ts'
import { IdParams } from '../api/schemas.ts'
import { cardsPage } from '../pages/cards.ts'
import { runSheetPage } from '../pages/run-sheet.ts'
import { sheetsPage } from '../pages/station-sheets.ts'
import { namesFrom, type PageNeeds } from './needs.ts'

const PaperQuery = Type.Object({ paper: Type.Optional(Type.Union([Type.Literal('a4'), Type.Literal('letter')])) })

export const printRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const schema = { params: IdParams, querystring: PaperQuery }
  const config = { role: 'visitor' } as const

  const subjectOf = (request: FastifyRequest, id: string) => {
    const night = desk.nights.find(id)
    const tour = desk.tours.current(id)
    if (tour === undefined) throw new Fault('not-found', 'fault.no-tour')
    const viewer = viewerOf(request)
    const { isStale } = desk.tours.stateOf(tour)
    return { viewer, night, tour, isStale, names: namesFrom(desk, viewer.words.settings.language, id) }
  }

  app.get('/nights/:id/print/run-sheet', { config, schema }, async (request, reply) => {
    const { viewer, ...subject } = subjectOf(request, request.params.id)
    const { site } = subject.night
    const evening = desk.sky.evening(eveningDate(subject.night), placeOf(site), site.zone)
    return reply.page('run-sheet', runSheetPage(viewer, { ...subject, evening }, request.query.paper ?? 'a4'))
  })

  app.get('/nights/:id/print/sheets', { config, schema }, async (request, reply) => {
    const { viewer, ...subject } = subjectOf(request, request.params.id)
    const checks = await desk.checks.evening(subject.night.id)
    return reply.page('sheets', sheetsPage(viewer, { ...subject, checks }, request.query.paper ?? 'a4'))
  })

  app.get('/nights/:id/print/cards', { config, schema }, async (request, reply) => {
    const { viewer, ...subject } = subjectOf(request, request.params.id)
    return reply.page('cards', cardsPage(viewer, subject, request.query.paper ?? 'a4'))
  })
}
