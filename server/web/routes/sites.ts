import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import type { Site, SiteDraft } from '../../tours/site.ts'
import { IdParams } from '../api/schemas.ts'
import { sitesPage } from '../pages/lists.ts'
import { type SiteFormSubject, siteFormPage } from '../pages/site-form.ts'
import { MOST_CORNERS, MOST_GLOWS } from '../pages/site-rows.ts'
import { formValues, kept } from './form-values.ts'
import type { PageNeeds } from './needs.ts'
import {
  NEW_SITE,
  siteDraftOf,
  siteFormProblems,
  siteRowCounts,
  siteRows,
  siteValues,
  townValues,
  withSky,
} from './site-draft.ts'

const TownQuery = Type.Object({
  q: Type.Optional(Type.String({ maxLength: 80 })),
  town: Type.Optional(Type.Integer({ minimum: 0, maximum: 50 })),
})
const TOWNS_SHOWN = 8

export const siteRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const show = (request: FastifyRequest, reply: FastifyReply, subject: SiteFormSubject) =>
    reply.page('site-form', siteFormPage(viewerOf(request), subject))

  const save = (
    request: FastifyRequest,
    reply: FastifyReply,
    id: string | null,
    keep: (draft: SiteDraft) => Site,
    after: (site: Site) => string,
  ) => {
    const typed = withSky(formValues(request))
    const { glows, corners } = siteRowCounts(typed)
    const search = id === null ? { query: '', towns: [], chosen: undefined } : null
    if (typed.act === 'more-glow' || typed.act === 'more-corners' || typed.act === 'class') {
      const rows = {
        glows: Math.min(MOST_GLOWS, glows + Number(typed.act === 'more-glow')),
        corners: corners === null ? null : Math.min(MOST_CORNERS, corners + Number(typed.act === 'more-corners')),
      }
      return show(request, reply, { id, state: { values: typed, problems: [] }, rows, search })
    }
    const values = siteRows(typed)
    const site = kept(() => keep(siteDraftOf(values, viewerOf(request).words)))
    if ('result' in site) return reply.redirect(after(site.result), 303)
    const state = { values, problems: siteFormProblems(site.problems) }
    return show(request, reply.code(422), { id, state, rows: { glows, corners }, search })
  }

  app.get('/sites', { config: { role: 'visitor' } }, async (request, reply) =>
    reply.page('sites', sitesPage(viewerOf(request), desk.sites.all(), desk.nights.all())),
  )

  app.get('/sites/new', { config: { role: 'host' }, schema: { querystring: TownQuery } }, async (request, reply) => {
    const query = (request.query.q ?? '').trim()
    const towns = query === '' ? [] : desk.places.search(query, TOWNS_SHOWN)
    const chosen = request.query.town === undefined ? undefined : towns[request.query.town]
    const values = chosen ? townValues(chosen) : NEW_SITE
    return show(request, reply, {
      id: null,
      state: { values, problems: [] },
      rows: siteRowCounts(values),
      search: { query, towns, chosen },
    })
  })

  app.post('/sites', { config: { role: 'host' } }, async (request, reply) =>
    save(request, reply, null, desk.sites.add, ({ id }) => `/nights/new?siteId=${id}`),
  )

  app.get('/sites/:id/edit', { config: { role: 'host' }, schema: { params: IdParams } }, async (request, reply) => {
    const site = desk.sites.find(request.params.id)
    const values = siteValues(site, viewerOf(request).words)
    const state = { values, problems: [] }
    return show(request, reply, { id: site.id, state, rows: siteRowCounts(values), search: null })
  })

  app.post('/sites/:id', { config: { role: 'host' }, schema: { params: IdParams } }, async (request, reply) => {
    const { id } = desk.sites.find(request.params.id)
    return save(
      request,
      reply,
      id,
      (draft) => desk.sites.change(id, draft),
      () => '/sites',
    )
  })
}
