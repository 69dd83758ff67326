import { setImmediate } from 'node:timers/promises'
import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Static } from 'typebox'
import { calendarDate } from '../../tours/hours.ts'
import { calendarText } from '../../words/calendar.ts'
import { DateParams, DatesQuery, datesQuery } from '../api/dates-query.ts'
import { IdParams } from '../api/schemas.ts'
import { datePage } from '../pages/date.ts'
import { dateEvents } from '../pages/date-events.ts'
import { type DateMonth, dateMonths } from '../pages/date-months.ts'
import { dateRulesPage } from '../pages/date-rules-form.ts'
import { datesPage } from '../pages/dates.ts'
import { dateRuleFormProblems, dateRulesOf, dateRuleValues } from './date-rules-draft.ts'
import { formValues, kept } from './form-values.ts'
import { namesFrom, type PageNeeds } from './needs.ts'
import { within } from './within.ts'

/** How long a page waits for its first month. */
const FIRST_MS = 2_000

export const dateRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  app.get('/dates', { config: { role: 'visitor' }, schema: { querystring: DatesQuery } }, async (request, reply) => {
    const viewer = viewerOf(request)
    const query = datesQuery(request.query)
    const sites = desk.sites.all()
    const hasSite = sites.length > 0
    if (hasSite) await within(FIRST_MS, desk.dates.first(query))
    const year = hasSite ? desk.dates.year(query) : null
    const thisMonth = calendarDate(viewer.now, year?.site.zone ?? 'UTC').slice(0, 7)
    const months: DateMonth[] = []
    for (const month of year === null ? [] : dateMonths(viewer.words, year, namesFrom(desk, viewer.words).nameOf)) {
      months.push(month)
      await setImmediate()
    }
    const kit = desk.telescopes.all().filter(({ isPutAway }) => isPutAway !== true)
    const subject = { year, months, sites, kit, thisMonth }
    return reply.page('dates', datesPage(viewer, subject))
  })

  const chosen = (date: string, query: Static<typeof DatesQuery>) => desk.dates.one(datesQuery(query), date)

  app.get(
    '/dates/:date',
    { config: { role: 'visitor' }, schema: { params: DateParams, querystring: DatesQuery } },
    async (request, reply) => {
      const date = await chosen(request.params.date, request.query)
      const viewer = viewerOf(request)
      return reply.page('date', datePage(viewer, { date, nameOf: namesFrom(desk, viewer.words).nameOf }))
    },
  )

  app.get(
    '/dates/:date/calendar.ics',
    { config: { role: 'visitor' }, schema: { params: DateParams, querystring: DatesQuery } },
    async (request, reply) => {
      const { words, now } = viewerOf(request)
      const date = await chosen(request.params.date, request.query)
      return reply
        .type('text/calendar; charset=utf-8')
        .header('content-disposition', `attachment; filename="night-${request.params.date}.ics"`)
        .send(calendarText(dateEvents(words, date, namesFrom(desk, words).nameOf), now))
    },
  )

  const showRules = (request: FastifyRequest, reply: FastifyReply, id: string, values: ReturnType<typeof formValues>) =>
    reply.page('date-rules', dateRulesPage(viewerOf(request), desk.sites.find(id), { values, problems: [] }))

  app.get('/sites/:id/date-rules', { config: { role: 'host' }, schema: { params: IdParams } }, async (request, reply) =>
    showRules(
      request,
      reply,
      request.params.id,
      dateRuleValues(desk.dates.rules(request.params.id), viewerOf(request).words),
    ),
  )

  app.post(
    '/sites/:id/date-rules',
    { config: { role: 'host' }, schema: { params: IdParams } },
    async (request, reply) => {
      const site = desk.sites.find(request.params.id)
      const values = formValues(request)
      const done = kept(() => desk.dates.keepRules(site.id, dateRulesOf(values, viewerOf(request).words)))
      if ('result' in done) return reply.redirect(`/dates?site=${site.id}`, 303)
      const problems = dateRuleFormProblems(done.problems, values)
      return reply.code(422).page('date-rules', dateRulesPage(viewerOf(request), site, { values, problems }))
    },
  )
}
