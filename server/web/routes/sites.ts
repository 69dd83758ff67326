import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import type { Problem } from '../../errors.ts'
import type { Site, SiteDraft } from '../../tours/site.ts'
import { IdParams } from '../api/schemas.ts'
import { DRAFT_LIMIT } from '../bodies.ts'
import { sitesPage } from '../pages/lists.ts'
import { type SiteFormSubject, siteFormPage } from '../pages/site-form.ts'
import { MOST_CORNERS, MOST_GLOWS } from '../pages/site-rows.ts'
import type { SkylineNote } from '../pages/site-skyline.ts'
import { type FormValues, formValues } from './form-values.ts'
import type { PageNeeds } from './needs.ts'
import { SearchQuery, searched } from './searched.ts'
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
import { typedSpot } from './site-place.ts'
import { drawnHorizon, tapIn, withCorners, withTap } from './site-skyline.ts'
import { listProblems, MOST_LIST_LETTERS, readSkylineCsv } from './skyline-csv.ts'

const TownQuery = Type.Object({
  ...SearchQuery.properties,
  town: Type.Optional(Type.Integer({ minimum: 0, maximum: 50 })),
})
const TOWNS_SHOWN = 8
/** A whole skyline and a list of one, which a form may write with nine signs a letter. */
const FORM_LIMIT = DRAFT_LIMIT + 9 * MOST_LIST_LETTERS

type Search = SiteFormSubject['search']
const NO_SEARCH: Search = { query: '', towns: [], chosen: undefined }

/** The form of one site: `before` as it was kept, null for a new one. */
interface Form {
  readonly request: FastifyRequest
  readonly reply: FastifyReply
  readonly before: Site | null
}
interface Told {
  readonly problems?: readonly Problem[]
  readonly notes?: readonly SkylineNote[]
  readonly search?: Search
}

export const siteRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const show = ({ request, reply, before }: Form, values: FormValues, { problems = [], notes = [], search }: Told) => {
    const viewer = viewerOf(request)
    const page = siteFormPage(viewer, {
      id: before?.id ?? null,
      state: { values, problems },
      rows: siteRowCounts(values),
      drawn: drawnHorizon(values, viewer.words),
      notes,
      search: before === null ? (search ?? NO_SEARCH) : null,
    })
    return reply.code(problems.length > 0 ? 422 : 200).page('site-form', page)
  }

  const check = ({ request, before }: Form, values: FormValues) => {
    const { words, now } = viewerOf(request)
    const spot = typedSpot(values, { words, now, before })
    const draft = siteDraftOf(values, spot, words)
    return { draft, problems: siteFormProblems(draft, spot) }
  }

  /** A list fills the corners for a look before anything is kept; while anything in it is wrong nothing of it is taken. */
  const takeList = (form: Form, values: FormValues, list: string) => {
    const { words } = viewerOf(form.request)
    const { rows, problems, notes } = readSkylineCsv(list, words)
    if (problems.length === 0) {
      const { skylineList: _, ...others } = values
      return show(form, withCorners(others, rows), { notes })
    }
    const others = values.act === 'take-list' ? [] : check(form, values).problems
    return show(form, values, { problems: [...others, ...listProblems(problems, words)] })
  }

  const save = (form: Form, keep: (draft: SiteDraft) => Site, after: (site: Site) => string) => {
    const typed = withSky(formValues(form.request))
    const tap = tapIn(typed)
    if (tap) {
      const { values, note } = withTap(typed, tap, viewerOf(form.request).words)
      return show(form, values, { notes: [note] })
    }
    if (typed.act === 'class') return show(form, typed, {})
    if (typed.act === 'more-glow' || typed.act === 'more-corners') return show(form, withMoreRows(typed), {})
    const values = siteRows(typed)
    const list = typed.skylineList ?? ''
    if (typed.act === 'take-list' || list.trim() !== '') return takeList(form, values, list)
    const { draft, problems } = check(form, values)
    return problems.length > 0 ? show(form, values, { problems }) : form.reply.redirect(after(keep(draft)), 303)
  }

  app.get('/sites', { config: { role: 'visitor' } }, async (request, reply) =>
    reply.page('sites', sitesPage(viewerOf(request), desk.sites.all(), desk.nights.all())),
  )

  app.get('/sites/new', { config: { role: 'host' }, schema: { querystring: TownQuery } }, async (request, reply) => {
    const query = searched(request.query.q)
    const towns = query === '' ? [] : desk.places.search(query, TOWNS_SHOWN)
    const chosen = request.query.town === undefined ? undefined : towns[request.query.town]
    const values = chosen ? townValues(chosen) : NEW_SITE
    return show({ request, reply, before: null }, values, { search: { query, towns, chosen } })
  })

  app.post('/sites', { config: { role: 'host' }, bodyLimit: FORM_LIMIT }, async (request, reply) =>
    save({ request, reply, before: null }, desk.sites.add, ({ id }) => `/nights/new?siteId=${id}`),
  )

  app.get('/sites/:id/edit', { config: { role: 'host' }, schema: { params: IdParams } }, async (request, reply) => {
    const before = desk.sites.find(request.params.id)
    return show({ request, reply, before }, siteValues(before, viewerOf(request).words), {})
  })

  app.post(
    '/sites/:id',
    { config: { role: 'host' }, schema: { params: IdParams }, bodyLimit: FORM_LIMIT },
    async (request, reply) => {
      const before = desk.sites.find(request.params.id)
      return save(
        { request, reply, before },
        (draft) => desk.sites.change(before.id, draft),
        () => '/sites',
      )
    },
  )
}

/** The form with one more row where it was asked for. */
function withMoreRows(values: FormValues): FormValues {
  const { glows, corners } = siteRowCounts(values)
  return values.act === 'more-glow'
    ? { ...values, glowRows: String(Math.min(MOST_GLOWS, glows + 1)) }
    : { ...values, ...(corners !== null && { cornerRows: String(Math.min(MOST_CORNERS, corners + 1)) }) }
}
