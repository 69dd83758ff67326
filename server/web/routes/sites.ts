import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { siteFormPage } from '../pages/site-form.ts'
import { formValues, kept } from './form-values.ts'
import type { PageNeeds } from './needs.ts'
import { siteDraftOf, townValues } from './site-draft.ts'

const TownQuery = Type.Object({
  q: Type.Optional(Type.String({ maxLength: 80 })),
  town: Type.Optional(Type.Integer({ minimum: 0, maximum: 50 })),
})
const TOWNS_SHOWN = 8

export const siteRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  app.get('/sites/new', { config: { role: 'host' }, schema: { querystring: TownQuery } }, async (request, reply) => {
    const query = (request.query.q ?? '').trim()
    const towns = query === '' ? [] : desk.places.search(query, TOWNS_SHOWN)
    const chosen = request.query.town === undefined ? undefined : towns[request.query.town]
    const state = { values: chosen ? townValues(chosen) : {}, problems: [] }
    return reply.page(
      'site-form',
      siteFormPage(viewerOf(request), { state, query, towns: chosen ? [] : towns, chosen }),
    )
  })

  app.post('/sites', { config: { role: 'host' } }, async (request, reply) => {
    const values = formValues(request)
    const site = kept(() => desk.sites.add(siteDraftOf(values)))
    if ('result' in site) return reply.redirect(`/nights/new?siteId=${site.result.id}`, 303)
    const subject = { state: { values, problems: site.problems }, query: '', towns: [], chosen: undefined }
    return reply.code(422).page('site-form', siteFormPage(viewerOf(request), subject))
  })
}
