import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { EDIT_CLOCKS, EDIT_COUNTS, EDIT_WORDS } from '../../tours/report-edits.ts'
import { clockSaid } from '../../words/clock-said.ts'
import { IdParams } from '../api/schemas.ts'
import { CSV_TYPE, csvText } from '../csv.ts'
import type { FormState } from '../pages/form.ts'
import { lookAsked, PrintQuery } from '../pages/paper-choice.ts'
import { reportPage, reportPaper } from '../pages/report.ts'
import { reportCsv } from '../pages/report-csv.ts'
import { editValues, reportHref } from '../pages/report-form.ts'
import { type FormValues, formValues, kept, numberOf } from './form-values.ts'
import { namesFrom, type PageNeeds } from './needs.ts'

export const reportRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const schema = { params: IdParams }
  const groundOf = async (request: FastifyRequest, id: string) => {
    const viewer = viewerOf(request)
    const report = await desk.reports.of(id)
    return { viewer, report, names: namesFrom(desk, viewer.words, id) }
  }

  async function show(request: FastifyRequest, reply: FastifyReply, id: string, state: FormState) {
    const { viewer, report, names } = await groundOf(request, id)
    const hasTour = desk.tours.current(id) !== undefined
    return reply.page('report', reportPage(viewer, { report, names, hasTour, state }))
  }

  app.get('/nights/:id/report', { config: { role: 'operator' }, schema }, async (request, reply) => {
    const { id } = request.params
    return show(request, reply, id, { values: editValues(desk.reports.edits(id)), problems: [] })
  })

  app.get(
    '/nights/:id/report/print',
    { config: { role: 'operator' }, schema: { params: IdParams, querystring: PrintQuery } },
    async (request, reply) => {
      const { viewer, report, names } = await groundOf(request as FastifyRequest, request.params.id)
      return reply.page('papers', reportPaper(viewer, report, names, lookAsked(request.query)))
    },
  )

  app.get('/nights/:id/report.csv', { config: { role: 'operator' }, schema }, async (request, reply) => {
    const { viewer, report, names } = await groundOf(request, request.params.id)
    const lines = reportCsv({ words: viewer.words, names, report, mayHost: viewer.mayHost })
    const name = `report-${report.night.date}.csv`
    return reply.type(CSV_TYPE).header('content-disposition', `attachment; filename="${name}"`).send(csvText(lines))
  })

  app.post('/nights/:id/report', { config: { role: 'host' }, schema }, async (request, reply) => {
    const { id } = desk.nights.find(request.params.id)
    const values = formValues(request)
    const done = kept(() => desk.reports.edit(id, editsOf(values)))
    if ('result' in done) return reply.redirect(reportHref({ id }), 303)
    return show(request, reply.code(422), id, { values, problems: done.problems })
  })

  for (const act of ['close', 'reopen'] as const) {
    app.post(`/nights/:id/report/${act}`, { config: { role: 'host' }, schema }, async (request, reply) => {
      const { id } = desk.nights.find(request.params.id)
      desk.reports[act](id)
      return reply.redirect(reportHref({ id }), 303)
    })
  }
}

/** What a form stands for; what is left blank is not put right. */
function editsOf(values: FormValues): object {
  const typed = (name: string): string => (values[name] ?? '').trim()
  const counts = EDIT_COUNTS.flatMap((name) => (typed(name) === '' ? [] : [[name, numberOf(values[name])]]))
  const clocks = EDIT_CLOCKS.flatMap((name) => (typed(name) === '' ? [] : [[name, clockSaid(typed(name))]]))
  return Object.fromEntries([...counts, ...clocks, ...EDIT_WORDS.map((name) => [name, typed(name)])])
}
