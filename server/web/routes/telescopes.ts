import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import { telescopeProblems } from '../../tours/problems.ts'
import { asTyped, type Telescope, type TelescopeDraft } from '../../tours/telescope.ts'
import { IdParams } from '../api/schemas.ts'
import { telescopePage } from '../pages/telescope.ts'
import { type TelescopeFormSubject, telescopeFormPage } from '../pages/telescope-form.ts'
import { telescopesPage } from '../pages/telescopes.ts'
import { formValues, kept } from './form-values.ts'
import type { PageNeeds } from './needs.ts'
import {
  NEW_TELESCOPE,
  telescopeDraftOf,
  telescopeRowCounts,
  telescopeRows,
  telescopeValues,
} from './telescope-draft.ts'

const SkyQuery = Type.Object({ sky: Type.Optional(Type.String({ maxLength: 40 })) })

/** What a telescope shows can be asked before it has a name. */
const UNNAMED = '?'

type Form = Omit<TelescopeFormSubject, 'sites' | 'nights' | 'asked'> & Partial<Pick<TelescopeFormSubject, 'asked'>>

export const telescopeRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const show = (request: FastifyRequest, reply: FastifyReply, form: Form) =>
    reply.page(
      'telescope-form',
      telescopeFormPage(viewerOf(request), {
        asked: null,
        sites: desk.sites.all(),
        nights: desk.nights.all(),
        ...form,
      }),
    )

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
    const draft = telescopeDraftOf(values, viewerOf(request).words)
    if (typed.act === 'shows') {
      const problems = telescopeProblems({ ...draft, name: draft.name || UNNAMED })
      const asked = problems.length === 0 ? asTyped(draft) : null
      return show(request, reply.code(asked ? 200 : 422), { id, state: { values, problems }, rows, asked })
    }
    const telescope = kept(() => keep(draft))
    if ('result' in telescope) return reply.redirect('/telescopes', 303)
    return show(request, reply.code(422), { id, state: { values, problems: telescope.problems }, rows })
  }

  app.get('/telescopes', { config: { role: 'visitor' } }, async (request, reply) =>
    reply.page('telescopes', telescopesPage(viewerOf(request), desk.telescopes.all(), desk.nights.all())),
  )

  app.get(
    '/telescopes/:id',
    { config: { role: 'visitor' }, schema: { params: IdParams, querystring: SkyQuery } },
    async (request, reply) => {
      const telescope = desk.telescopes.find(request.params.id)
      const { sky } = request.query
      const subject = { telescope, nights: desk.nights.all(), sites: desk.sites.all(), sky }
      return reply.page('telescope', telescopePage(viewerOf(request), subject))
    },
  )

  for (const act of ['put-away', 'take-out'] as const) {
    app.post(
      `/telescopes/:id/${act}`,
      { config: { role: 'host' }, schema: { params: IdParams } },
      async (request, reply) => {
        const { id } = desk.telescopes.putAway(request.params.id, act === 'put-away')
        return reply.redirect(`/telescopes/${id}`, 303)
      },
    )
  }

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
