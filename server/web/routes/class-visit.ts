import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { type ClassVisit, VISIT_LINES } from '../../tours/class-visit.ts'
import { IdParams } from '../api/schemas.ts'
import { classVisitPage } from '../pages/class-visit.ts'
import type { FormState } from '../pages/form.ts'
import { classVisitHref } from '../pages/notes-href.ts'
import { type FormValues, formValues, kept, numberOf } from './form-values.ts'
import type { PageNeeds } from './needs.ts'

export const classVisitRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const options = { config: { role: 'host' }, schema: { params: IdParams } } as const
  const show = (request: FastifyRequest, reply: FastifyReply, id: string, state: FormState) => {
    const night = desk.nights.find(id)
    const hasTour = desk.tours.current(id) !== undefined
    return reply.page('class-visit', classVisitPage(viewerOf(request), { night, hasTour, state }))
  }

  app.get('/nights/:id/class', options, async (request, reply) => {
    const { id } = request.params
    return show(request, reply, id, { values: visitValues(desk.notes.visit(id)), problems: [] })
  })

  app.post('/nights/:id/class', options, async (request, reply) => {
    const night = desk.nights.find(request.params.id)
    const values = formValues(request)
    const done = kept(() => desk.notes.keepVisit(night.id, visitOf(values)))
    if ('result' in done) return reply.redirect(classVisitHref(night), 303)
    return show(request, reply.code(422), night.id, { values, problems: done.problems })
  })
}

const visitValues = ({ adultsPerGroup, asksPhotos, ...lines }: ClassVisit): FormValues => ({
  ...lines,
  adultsPerGroup: adultsPerGroup === null ? '' : String(adultsPerGroup),
  asksPhotos: String(asksPhotos),
})

const visitOf = (values: FormValues): object => ({
  ...Object.fromEntries(VISIT_LINES.map((name) => [name, (values[name] ?? '').trim()])),
  adultsPerGroup: (values.adultsPerGroup ?? '').trim() === '' ? null : numberOf(values.adultsPerGroup),
  asksPhotos: values.asksPhotos === 'true',
})
