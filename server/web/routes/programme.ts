import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { IdParams, VersionNumber } from '../api/schemas.ts'
import { programmePage } from '../pages/programme.ts'
import { formValues } from './form-values.ts'
import { newKey } from './mark-key.ts'
import { namesFrom, type PageNeeds } from './needs.ts'

const ProgrammeQuery = Type.Object({
  by: Type.Optional(Type.Union([Type.Literal('telescope'), Type.Literal('time')])),
  version: Type.Optional(VersionNumber),
})

export const programmeRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  app.get(
    '/nights/:id/programme',
    { config: { role: 'visitor' }, schema: { params: IdParams, querystring: ProgrammeQuery } },
    async (request, reply) => {
      const viewer = viewerOf(request)
      const night = desk.nights.find(request.params.id)
      const { by = 'telescope', version } = request.query
      const names = namesFrom(desk, viewer.words.settings.language, night.id)
      const tour = version === undefined ? desk.tours.current(night.id) : desk.tours.version(night.id, version)
      const state = tour && desk.tours.stateOf(tour)
      return reply.page('programme', programmePage(viewer, { night, tour, state, by, names, newKey }))
    },
  )

  app.post(
    '/nights/:id/programme',
    { config: { role: 'host' }, schema: { params: IdParams } },
    async (request, reply) => {
      const { id } = desk.nights.find(request.params.id)
      await desk.tours.build(id)
      return reply.redirect(`/nights/${id}/programme`, 303)
    },
  )

  app.post(
    '/nights/:id/programme/accept',
    { config: { role: 'host' }, schema: { params: IdParams } },
    async (request, reply) => {
      const { id } = desk.nights.find(request.params.id)
      const { key = '', tourId = '' } = formValues(request)
      const accepted = { key, kind: 'accepted', stationId: null, payload: { tourId }, secondsAgo: 0 } as const
      desk.marks.record(id, [accepted], 'host')
      return reply.redirect(`/nights/${id}/programme`, 303)
    },
  )
}
