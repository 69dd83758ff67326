import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { IdParams, VersionNumber } from '../api/schemas.ts'
import { programmePage } from '../pages/programme.ts'
import { actorOf } from '../roles.ts'
import { formValues } from './form-values.ts'
import { newKey } from './mark-key.ts'
import { namesFrom, type PageNeeds } from './needs.ts'
import { isOfWishes } from './wish-fault.ts'
import { within } from './within.ts'

const ProgrammeQuery = Type.Object({
  by: Type.Optional(Type.Union([Type.Literal('telescope'), Type.Literal('time')])),
  version: Type.Optional(VersionNumber),
})

/** How long the page waits for what the worker has to tell beside the programme. */
const PATIENCE_MS = 700

export const programmeRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  app.get(
    '/nights/:id/programme',
    { config: { role: 'visitor' }, schema: { params: IdParams, querystring: ProgrammeQuery } },
    async (request, reply) => {
      const viewer = viewerOf(request)
      const night = desk.nights.find(request.params.id)
      const { by = 'telescope', version } = request.query
      const names = namesFrom(desk, viewer.words, night.id)
      const tour = version === undefined ? desk.tours.current(night.id) : desk.tours.version(night.id, version)
      const state = tour && desk.tours.stateOf(tour)
      const [missing, beside] = await Promise.all([
        tour ? within(PATIENCE_MS, desk.missing(tour)) : [],
        within(PATIENCE_MS, desk.beside(night.id, tour)),
      ])
      return reply.page('programme', programmePage(viewer, { night, tour, state, by, names, newKey, missing, beside }))
    },
  )

  app.post(
    '/nights/:id/programme',
    { config: { role: 'host-phone' }, schema: { params: IdParams } },
    async (request, reply) => {
      const { id } = desk.nights.find(request.params.id)
      try {
        await desk.tours.build(id)
      } catch (error) {
        if (isOfWishes(error)) return reply.redirect(`/nights/${id}/wishes`, 303)
        throw error
      }
      return reply.redirect(`/nights/${id}/programme`, 303)
    },
  )

  app.post(
    '/nights/:id/programme/accept',
    { config: { role: 'host-phone' }, schema: { params: IdParams } },
    async (request, reply) => {
      const { id } = desk.nights.find(request.params.id)
      const { key = '', tourId = '' } = formValues(request)
      const accepted = { key, kind: 'accepted', stationId: null, payload: { tourId }, secondsAgo: 0 } as const
      const { name, role } = actorOf(viewerOf(request).who)
      desk.marks.record(id, [accepted], name, role)
      return reply.redirect(`/nights/${id}/programme`, 303)
    },
  )
}
