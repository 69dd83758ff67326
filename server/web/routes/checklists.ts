import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { eveningDate, nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import { placeOf } from '../../tours/site.ts'
import { sunTonight } from '../../tours/sun-tonight.ts'
import { IdParams } from '../api/schemas.ts'
import { checklistsPage } from '../pages/checklists.ts'
import { type ChecklistsFormSubject, checklistsForm } from '../pages/checklists-form.ts'
import { checklistsHref } from '../pages/notes-href.ts'
import { atTypedRow, checklistValues, moreRows, postedRows, rowsFor, typedList } from './checklists-draft.ts'
import { formValues, kept } from './form-values.ts'
import { LookQuery } from './look.ts'
import type { PageNeeds } from './needs.ts'

export const checklistRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const schema = { params: IdParams }
  const nightOf = ({ params }: { readonly params: { readonly id: string } }): Night => desk.nights.find(params.id)

  app.get(
    '/nights/:id/checklists',
    { config: { role: 'visitor' }, schema: { params: IdParams, querystring: LookQuery } },
    async (request, reply) => {
      const night = nightOf(request)
      const evening = desk.sky.evening(eveningDate(night), placeOf(night.site), night.site.zone)
      const subject = {
        night,
        checklist: desk.notes.checklist(night.id),
        sunsetAt: evening.sunsetAt,
        sunriseAt: evening.sunriseAt,
        sun: sunTonight(night.site, evening, nightHours(night).opensAt),
        hasTour: desk.tours.current(night.id) !== undefined,
        look: request.query.look ?? 'day',
      }
      return reply.page('checklists', checklistsPage(viewerOf(request), subject))
    },
  )

  app.post('/nights/:id/checklists/ticks', { config: { role: 'operator' }, schema }, async (request, reply) => {
    const night = nightOf(request)
    const { tick, untick, look } = formValues(request)
    const item = tick ?? untick ?? ''
    desk.notes.tick(night.id, item, tick !== undefined)
    return reply.redirect(`${checklistsHref(night)}?look=${look === 'lamp' ? 'lamp' : 'day'}#item-${item}`, 303)
  })

  const show = (
    request: FastifyRequest,
    reply: FastifyReply,
    subject: Omit<ChecklistsFormSubject, 'checklist' | 'hasTour'>,
  ) =>
    reply.page(
      'checklists-form',
      checklistsForm(viewerOf(request), {
        ...subject,
        hasTour: desk.tours.current(subject.night.id) !== undefined,
        checklist: desk.notes.checklist(subject.night.id),
      }),
    )

  app.get('/nights/:id/checklists/edit', { config: { role: 'host' }, schema }, async (request, reply) => {
    const night = nightOf(request)
    const { items } = desk.notes.checklist(night.id)
    const state = { values: checklistValues(items), problems: [] }
    return show(request, reply, { night, rowCount: rowsFor(items), state })
  })

  app.post('/nights/:id/checklists', { config: { role: 'host' }, schema }, async (request, reply) => {
    const night = nightOf(request)
    const values = formValues(request)
    if (values.act === 'more') {
      return show(request, reply, { night, rowCount: moreRows(values), state: { values, problems: [] } })
    }
    const typed = typedList(values)
    const done = kept(() => desk.notes.keepChecklist(night.id, typed.items))
    if ('result' in done) return reply.redirect(checklistsHref(night), 303)
    const problems = done.problems.map((problem) => atTypedRow(typed, problem))
    return show(request, reply.code(422), { night, rowCount: postedRows(values), state: { values, problems } })
  })

  app.post('/nights/:id/checklists/take-over', { config: { role: 'host' }, schema }, async (request, reply) => {
    const night = nightOf(request)
    desk.notes.takeOverChecklist(night.id)
    return reply.redirect(`${checklistsHref(night)}/edit`, 303)
  })

  app.post('/nights/:id/checklists/forget', { config: { role: 'host' }, schema }, async (request, reply) => {
    const night = nightOf(request)
    desk.notes.forgetChecklist(night.id)
    return reply.redirect(`${checklistsHref(night)}/edit`, 303)
  })
}
