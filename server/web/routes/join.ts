import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import type { Who } from '../../desk/desk.ts'
import { Fault, notFound, type Problem } from '../../errors.ts'
import type { FormState } from '../pages/form.ts'
import { type FieldLook, joinHref, joinPage, placeOf } from '../pages/join.ts'
import { isClockWrong } from '../pages/phones-text.ts'
import { SESSION_COOKIE } from '../roles.ts'
import { type FormValues, formValues } from './form-values.ts'
import type { PageNeeds } from './needs.ts'

const Look = Type.Union([Type.Literal('day'), Type.Literal('lamp')])
const JoinQuery = Type.Object({ look: Type.Optional(Look), as: Type.Optional(Type.Literal('host')) })
const NightParams = Type.Object({ nightId: Type.String({ minLength: 1, maxLength: 40 }) })

/** Longer than any code; what is longer is not looked at. */
const LONGEST_SECRET = 40
const BLANK: FormState = { values: {}, problems: [] }

export const joinRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf, joinDoor }) => {
  const show = (request: FastifyRequest, reply: FastifyReply, asked: FormValues, form = BLANK) => {
    const who = joinDoor.waiting(request)
    const isGone = who === undefined && request.cookies[SESSION_COOKIE] !== undefined && !viewerOf(request).mayHost
    const subject = { who, isGone, form, isHosts: asked.as === 'host', look: lookOf(asked) }
    return reply.page('join', joinPage(viewerOf(request), subject))
  }

  app.get('/join', { config: { role: 'visitor' }, schema: { querystring: JoinQuery } }, async (request, reply) =>
    show(request, reply, request.query),
  )

  app.post('/join', { config: { role: 'visitor' } }, async (request, reply) => {
    const values = formValues(request)
    const { token = '', code = '', name = '', role, phoneAt = '' } = values
    const secret = (token || code).trim().slice(0, LONGEST_SECRET)
    const problems = blanks({ code: secret, name })
    if (problems.length > 0) return show(request, reply.code(422), values, { values, problems })
    const phoneMs = Date.parse(phoneAt)
    const ask = {
      secret,
      name,
      role: role === 'helper' ? 'helper' : 'operator',
      phoneMs: Number.isNaN(phoneMs) ? null : phoneMs,
    } as const
    try {
      return reply.redirect(nextOf(joinDoor.open(request, reply, ask), lookOf(values)), 303)
    } catch (error) {
      if (!(error instanceof Fault) || !TOLD.includes(error.code)) throw error
      const told = { field: 'code', key: error.key, values: error.values }
      return show(request, reply.code(error.code === 'busy' ? 429 : 422), values, { values, problems: [told] })
    }
  })

  app.post(
    '/field/:nightId/stand',
    { config: { role: 'operator' }, schema: { params: NightParams } },
    async (request, reply) => {
      const night = desk.nights.find(request.params.nightId)
      const { stationId = '' } = formValues(request)
      if (stationId !== '' && !night.stations.some(({ id }) => id === stationId)) throw notFound('station')
      const { who } = viewerOf(request)
      if (who && who.nightId !== null) desk.joins.stand(who, stationId === '' ? null : stationId)
      const place = who?.role === 'helper' ? 'line' : stationId
      return reply.redirect(place === '' ? `/field/${night.id}` : `/field/${night.id}/${place}`, 303)
    },
  )
}

/** What the form itself tells of, beside its fields. */
const TOLD: readonly string[] = ['forbidden', 'busy']

const lookOf = ({ look }: FormValues): FieldLook => (look === 'day' ? 'day' : 'lamp')

const blanks = (fields: FormValues): Problem[] =>
  Object.entries(fields).flatMap(([field, value]) => (value.trim() === '' ? [{ field, key: 'problem.required' }] : []))

/** A phone that waits, or whose clock is wrong, reads so first. */
const nextOf = (who: Who, look: FieldLook): string =>
  !who.isConfirmed || isClockWrong(who) ? joinHref({ isHosts: false, look }) : placeOf(who, look)
