import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { JudgedDate } from '../../tours/date-choice.ts'
import type { Words } from '../../words/words.ts'
import { brokenText, darkText, moonText } from '../pages/date-text.ts'
import { within } from '../routes/within.ts'
import { DatesQuery, datesQuery } from './dates-query.ts'
import type { ApiNeeds } from './needs.ts'

const FIRST_MS = 2_000

export const dateRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  const summary =
    'A year of dates at a site, each with every rule that it breaks; months that are being worked out are null'
  app.get('/dates', { config: { role: 'visitor' }, schema: { summary, querystring: DatesQuery } }, async (request) => {
    const query = datesQuery(request.query)
    await within(FIRST_MS, desk.dates.first(query))
    const { site, months, telescopes, rowIds: _rowIds, ...year } = desk.dates.year(query)
    const words = wordsFor(request)
    return {
      ...year,
      siteId: site.id,
      zone: site.zone,
      telescopeIds: telescopes.map(({ id }) => id),
      months: months.map(({ month, dates }) => ({
        month,
        dates: dates?.map((date) => dateJson(words, date, site.zone)) ?? null,
      })),
    }
  })
}

const dateJson = (words: Words, date: JudgedDate, zone: string) => ({
  ...date,
  darkText: darkText(words, date, zone),
  moonText: moonText(words, date, zone),
  broken: date.broken.map((broken) => ({ ...broken, text: brokenText(words, broken, date.date) })),
})
