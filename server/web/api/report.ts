import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import { namesFrom } from '../routes/needs.ts'
import type { ApiNeeds } from './needs.ts'
import { reportJson } from './report-json.ts'
import { ReportAnswer } from './report-schema.ts'
import { IdParams } from './schemas.ts'

const SeasonParams = Type.Object({ year: Type.Integer({ minimum: 2000, maximum: 2099 }) })

export const reportRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor, whoOf }) => {
  app.get(
    '/nights/:id/report',
    {
      config: { role: 'operator' },
      schema: {
        summary:
          'The report of a night: what was shown, looks, people, waits, weather; names of people for the host alone',
        params: IdParams,
        response: { 200: ReportAnswer },
      },
    },
    async (request) => {
      const report = await desk.reports.of(request.params.id)
      const words = wordsFor(request as FastifyRequest)
      const names = namesFrom(desk, words, report.night.id)
      return reportJson({ words, names, report, mayHost: whoOf(request as FastifyRequest)?.role === 'host' })
    },
  )

  app.get(
    '/season/:year',
    {
      config: { role: 'visitor' },
      schema: {
        summary: 'The nights of a year that are closed, side by side; for the host all that are over, with names',
        params: SeasonParams,
      },
    },
    async (request) => {
      const isHost = whoOf(request as FastifyRequest)?.role === 'host'
      const season = await desk.reports.season(request.params.year, !isHost)
      return {
        ...season,
        nights: season.nights.map((night) => ({ ...night, operators: isHost ? night.operators : null })),
      }
    },
  )
}
