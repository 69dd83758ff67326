import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Fault } from '../../errors.ts'
import { nightHours } from '../../tours/hours.ts'
import { IdParams } from '../api/schemas.ts'
import { startPage } from '../pages/start.ts'
import { startMadePage } from '../pages/start-made.ts'
import { troubleOf } from '../problems.ts'
import { type FormValues, formValues } from './form-values.ts'
import { keptFor } from './kept-for.ts'
import { newKey } from './mark-key.ts'
import type { PageNeeds } from './needs.ts'
import { readStart, type StartRead } from './start-draft.ts'

/** How long the same form sent again gives the same evening. */
const SAME_FORM_MS = 600_000
/** Of one name the list of towns has no more than some dozens. */
const TOWNS_OF_A_NAME = 100

export const startRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const once = keptFor<string>(SAME_FORM_MS)

  const show = (
    request: FastifyRequest,
    reply: FastifyReply,
    values: FormValues,
    { problems, places }: Pick<StartRead, 'problems' | 'places'>,
  ) => reply.page('start', startPage(viewerOf(request), { state: { values, problems }, places, key: newKey() }))

  app.get('/start', { config: { role: 'host' } }, async (request, reply) =>
    show(request, reply, {}, { problems: [], places: [] }),
  )

  app.post('/start', { config: { role: 'host' } }, async (request, reply) => {
    const { key = '', ...typed } = formValues(request)
    const { asked, ...read } = readStart(viewerOf(request), desk.start, typed)
    if (!asked) return show(request, reply.code(422), typed, read)
    try {
      const id = await once(JSON.stringify([key, typed]), async () => (await desk.start.make(asked)).id)
      return reply.redirect(`/nights/${id}/start`, 303)
    } catch (error) {
      if (!(error instanceof Fault)) throw error
      const { status, key: code, values = {}, problems = [] } = troubleOf(error)
      const said = problems.length > 0 ? problems : [{ field: 'form', key: code, values }]
      return show(request, reply.code(status), typed, { ...read, problems: said })
    }
  })

  app.get('/nights/:id/start', { config: { role: 'host' }, schema: { params: IdParams } }, async (request, reply) => {
    const night = desk.nights.find(request.params.id)
    const { name, latitudeDeg, longitudeDeg } = night.site
    const isTown = desk.places
      .search(name, TOWNS_OF_A_NAME)
      .some((town) => town.latitudeDeg === latitudeDeg && town.longitudeDeg === longitudeDeg)
    const tour = desk.tours.current(night.id)
    const viewer = viewerOf(request)
    const state = tour && desk.tours.stateOf(tour)
    const isStale = state?.isStale === true && !state.waiting && viewer.now < nightHours(night).opensAt
    return reply.page('start-made', startMadePage(viewer, { night, tour, isStale, isTown }))
  })
}
