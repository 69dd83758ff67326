import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import { notFound } from '../../errors.ts'
import type { Night } from '../../tours/night.ts'
import { type FieldSubject, fieldPage, fieldRowPage } from '../pages/field.ts'
import { fieldMark } from './field-mark.ts'
import { formValues } from './form-values.ts'
import { newKey } from './mark-key.ts'
import { namesFrom, type PageNeeds } from './needs.ts'

const Id = Type.String({ minLength: 1, maxLength: 40 })
const RowParams = Type.Object({ nightId: Id })
const StationParams = Type.Object({ nightId: Id, stationId: Id })
const LookQuery = Type.Object({ look: Type.Optional(Type.Union([Type.Literal('day'), Type.Literal('lamp')])) })

const LOOK_COOKIE = 'look'
const NIGHT_S = 43_200

export const fieldRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const subjectOf = (request: FastifyRequest, nightId: string, look: 'day' | 'lamp'): FieldSubject => {
    const night = desk.nights.find(nightId)
    const names = namesFrom(desk, viewerOf(request).words.settings.language, nightId)
    return { night, tour: desk.tours.current(nightId), field: desk.marks.field(nightId), names, look, newKey }
  }

  app.get(
    '/field/:nightId',
    { config: { role: 'visitor' }, schema: { params: RowParams, querystring: LookQuery } },
    async (request, reply) => {
      const look = lookOf(request, reply, request.query.look)
      return reply.page('field-row', fieldRowPage(viewerOf(request), subjectOf(request, request.params.nightId, look)))
    },
  )

  app.get(
    '/field/:nightId/:stationId',
    { config: { role: 'visitor' }, schema: { params: StationParams, querystring: LookQuery } },
    async (request, reply) => {
      const subject = subjectOf(request, request.params.nightId, lookOf(request, reply, request.query.look))
      const station = stationOf(subject.night, request.params.stationId)
      return reply.page('field', fieldPage(viewerOf(request), subject, station))
    },
  )

  app.post(
    '/field/:nightId/:stationId/marks',
    { config: { role: 'operator' }, schema: { params: StationParams } },
    async (request, reply) => {
      const night = desk.nights.find(request.params.nightId)
      const station = stationOf(night, request.params.stationId)
      desk.marks.record(
        night.id,
        [fieldMark(station.id, formValues(request))],
        viewerOf(request).mayHost ? 'host' : 'operator',
      )
      return reply.redirect(`/field/${night.id}/${station.id}`, 303)
    },
  )
}

function stationOf(night: Night, id: string) {
  const station = night.stations.find((found) => found.id === id)
  if (!station) throw notFound('station')
  return station
}

/** The look that was asked for, kept for the night; without one the lamp. */
function lookOf(request: FastifyRequest, reply: FastifyReply, asked: 'day' | 'lamp' | undefined): 'day' | 'lamp' {
  if (asked) reply.setCookie(LOOK_COOKIE, asked, { path: '/field', sameSite: 'lax', httpOnly: true, maxAge: NIGHT_S })
  return (asked ?? request.cookies[LOOK_COOKIE]) === 'day' ? 'day' : 'lamp'
}
