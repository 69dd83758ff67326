import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import { Fault } from '../../errors.ts'
import { eveningDate } from '../../tours/hours.ts'
import { languageCode } from '../../tours/own-words.ts'
import { placeOf } from '../../tours/site.ts'
import { IdParams } from '../api/schemas.ts'
import { cardsPage } from '../pages/cards.ts'
import { checkSheetPage } from '../pages/check-sheet.ts'
import { runSheetPage } from '../pages/run-sheet.ts'
import type { SecondLanguage } from '../pages/second-language.ts'
import { sheetsPage } from '../pages/station-sheets.ts'
import { namesFrom, type PageNeeds } from './needs.ts'

const PaperQuery = Type.Object({ paper: Type.Optional(Type.Union([Type.Literal('a4'), Type.Literal('letter')])) })

const CardsQuery = Type.Object({
  ...PaperQuery.properties,
  second: Type.Optional(Type.String({ maxLength: 40 })),
})

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
    const beside = await desk.beside(subject.night.id, subject.tour)
    return reply.page('run-sheet', runSheetPage(viewer, { ...subject, evening, beside }, request.query.paper ?? 'a4'))
  })

  app.get('/nights/:id/print/check-sheet', { config, schema }, async (request, reply) => {
    const { viewer, ...subject } = subjectOf(request, request.params.id)
    const checks = await desk.checks.evening(subject.night.id)
    return reply.page('check-sheet', checkSheetPage(viewer, { ...subject, checks }, request.query.paper ?? 'a4'))
  })

  app.get('/nights/:id/print/sheets', { config, schema }, async (request, reply) => {
    const { viewer, ...subject } = subjectOf(request, request.params.id)
    const checks = await desk.checks.evening(subject.night.id)
    const beside = await desk.beside(subject.night.id, subject.tour)
    return reply.page('sheets', sheetsPage(viewer, { ...subject, checks, beside }, request.query.paper ?? 'a4'))
  })

  /** The language asked for, if there are words in it and it is not the reader's own. */
  const secondOf = (own: string, asked = ''): SecondLanguage => {
    const languages = desk.words.languages()
    const language = languages.find((code) => code === languageCode(asked) && code !== own) ?? null
    return { language, languages, story: (key) => (language === null ? undefined : desk.objects.story(key, language)) }
  }

  const cardsSchema = { params: IdParams, querystring: CardsQuery }
  app.get('/nights/:id/print/cards', { config, schema: cardsSchema }, async (request, reply) => {
    const { viewer, ...subject } = subjectOf(request, request.params.id)
    const second = secondOf(viewer.words.settings.language, request.query.second)
    return reply.page('cards', cardsPage(viewer, { ...subject, second }, request.query.paper ?? 'a4'))
  })
}
