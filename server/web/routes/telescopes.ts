import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { telescopesPage } from '../pages/lists.ts'
import { telescopeFormPage } from '../pages/telescope-form.ts'
import { formValues, kept, rowCount } from './form-values.ts'
import type { PageNeeds } from './needs.ts'
import { telescopeDraftOf, telescopeRows } from './telescope-draft.ts'

const FEWEST_EYEPIECES = 3
const MOST_EYEPIECES = 12

export const telescopeRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  app.get('/telescopes', { config: { role: 'visitor' } }, async (request, reply) =>
    reply.page('telescopes', telescopesPage(viewerOf(request), desk.telescopes.all())),
  )

  app.get('/telescopes/new', { config: { role: 'host' } }, async (request, reply) =>
    reply.page('telescope-form', telescopeFormPage(viewerOf(request), { values: {}, problems: [] }, FEWEST_EYEPIECES)),
  )

  app.post('/telescopes', { config: { role: 'host' } }, async (request, reply) => {
    const typed = formValues(request)
    const rows = rowCount(typed, 'eyepieceRows', FEWEST_EYEPIECES, MOST_EYEPIECES)
    if (typed.act === 'more') {
      const state = { values: typed, problems: [] }
      const more = Math.min(MOST_EYEPIECES, rows + 1)
      return reply.page('telescope-form', telescopeFormPage(viewerOf(request), state, more))
    }
    const values = telescopeRows(typed)
    const telescope = kept(() => desk.telescopes.add(telescopeDraftOf(values)))
    if ('result' in telescope) return reply.redirect('/telescopes', 303)
    const state = { values, problems: telescope.problems }
    return reply.code(422).page('telescope-form', telescopeFormPage(viewerOf(request), state, rows))
  })
}
