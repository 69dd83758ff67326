import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Telescope, TelescopeDraft } from '../../tours/telescope.ts'
import { IdParams } from '../api/schemas.ts'
import { telescopesPage } from '../pages/lists.ts'
import { type TelescopeFormSubject, telescopeFormPage } from '../pages/telescope-form.ts'
import { formValues, kept } from './form-values.ts'
import type { PageNeeds } from './needs.ts'
import {
  NEW_TELESCOPE,
  telescopeDraftOf,
  telescopeRowCounts,
  telescopeRows,
  telescopeValues,
} from './telescope-draft.ts'

export const telescopeRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const show = (request: FastifyRequest, reply: FastifyReply, subject: TelescopeFormSubject) =>
    reply.page('telescope-form', telescopeFormPage(viewerOf(request), subject))

  const save = (
    request: FastifyRequest,
    reply: FastifyReply,
    id: string | null,
    keep: (draft: TelescopeDraft) => Telescope,
  ) => {
    const typed = formValues(request)
    const rows = telescopeRowCounts(typed)
    if (typed.act === 'more' || typed.act === 'more-factors') {
      return show(request, reply, { id, state: { values: typed, problems: [] }, rows })
    }
    const values = telescopeRows(typed)
    const telescope = kept(() => keep(telescopeDraftOf(values, viewerOf(request).words)))
    if ('result' in telescope) return reply.redirect('/telescopes', 303)
    return show(request, reply.code(422), { id, state: { values, problems: telescope.problems }, rows })
  }

  app.get('/telescopes', { config: { role: 'visitor' } }, async (request, reply) =>
    reply.page('telescopes', telescopesPage(viewerOf(request), desk.telescopes.all(), desk.nights.all())),
  )

  app.get('/telescopes/new', { config: { role: 'host' } }, async (request, reply) =>
    show(request, reply, {
      id: null,
      state: { values: NEW_TELESCOPE, problems: [] },
      rows: telescopeRowCounts(NEW_TELESCOPE),
    }),
  )

  app.post('/telescopes', { config: { role: 'host' } }, async (request, reply) =>
    save(request, reply, null, desk.telescopes.add),
  )

  app.get(
    '/telescopes/:id/edit',
    { config: { role: 'host' }, schema: { params: IdParams } },
    async (request, reply) => {
      const telescope = desk.telescopes.find(request.params.id)
      const values = telescopeValues(telescope, viewerOf(request).words)
      const state = { values, problems: [] }
      return show(request, reply, { id: telescope.id, state, rows: telescopeRowCounts(values) })
    },
  )

  app.post('/telescopes/:id', { config: { role: 'host' }, schema: { params: IdParams } }, async (request, reply) => {
    const { id } = desk.telescopes.find(request.params.id)
    return save(request, reply, id, (draft) => desk.telescopes.change(id, draft))
  })
}
