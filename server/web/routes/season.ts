import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyRequest } from 'fastify'
import { type Static, Type } from 'typebox'
import { CSV_TYPE, csvText } from '../csv.ts'
import { seasonCsv } from '../pages/report-csv.ts'
import { seasonPage } from '../pages/season.ts'
import { namesFrom, type PageNeeds } from './needs.ts'

const SeasonQuery = Type.Object({ year: Type.Optional(Type.Integer({ minimum: 2000, maximum: 2099 })) })

/** The host reads of every night that is over; everybody else of those that are closed, and of nobody by name. */
export const seasonRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, clock, viewerOf }) => {
  const options = { config: { role: 'visitor' }, schema: { querystring: SeasonQuery } } as const

  async function asked(request: FastifyRequest, { year }: Static<typeof SeasonQuery>) {
    const viewer = viewerOf(request)
    const settled = !viewer.mayHost
    const years = desk.reports.years(settled)
    const season = await desk.reports.season(year ?? years[0] ?? clock.now().getUTCFullYear(), settled)
    return { viewer, years, season, names: namesFrom(desk, viewer.words) }
  }

  app.get('/season', options, async (request, reply) => {
    const { viewer, ...subject } = await asked(request as FastifyRequest, request.query)
    return reply.page('season', seasonPage(viewer, subject))
  })

  app.get('/season.csv', options, async (request, reply) => {
    const { viewer, season, names } = await asked(request as FastifyRequest, request.query)
    const name = `season-${season.year}.csv`
    return reply
      .type(CSV_TYPE)
      .header('content-disposition', `attachment; filename="${name}"`)
      .send(csvText(seasonCsv(viewer.words, season, names, viewer.mayHost)))
  })
}
