import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import type { StopName } from '../../desk/wishes.ts'
import { notFound, type Problem } from '../../errors.ts'
import { THING_GROUP_NAMES, THING_GROUPS } from '../../tours/wish.ts'
import { STOP_ACTS } from '../../tours/wish-stops.ts'
import { IdParams } from '../api/schemas.ts'
import type { FormState } from '../pages/form.ts'
import { wishesPage } from '../pages/wishes.ts'
import { type FormValues, formValues, keptLater } from './form-values.ts'
import { namesFrom, type PageNeeds } from './needs.ts'
import { SearchQuery, searched } from './searched.ts'
import { telescopeHits } from './telescope-hits.ts'

const WishParams = Type.Object({ ...IdParams.properties, wishId: Type.String({ minLength: 1, maxLength: 40 }) })

export const wishRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const show = async (request: FastifyRequest, reply: FastifyReply, id: string, typed: string, state: FormState) => {
    const viewer = viewerOf(request)
    const night = desk.nights.find(id)
    const query = searched(typed)
    const hits = telescopeHits(desk, query)
    const subject = {
      night,
      hasTour: desk.tours.current(id) !== undefined,
      told: await desk.wishes.told(id),
      names: namesFrom(desk, viewer.words, id),
      query,
      hits,
      state,
    }
    return reply.page('wishes', wishesPage(viewer, subject))
  }

  app.get(
    '/nights/:id/wishes',
    { config: { role: 'visitor' }, schema: { params: IdParams, querystring: SearchQuery } },
    async (request, reply) =>
      show(request, reply, request.params.id, request.query.q ?? '', { values: {}, problems: [] }),
  )

  app.post('/nights/:id/wishes', { config: { role: 'host' }, schema: { params: IdParams } }, async (request, reply) => {
    const { id } = desk.nights.find(request.params.id)
    const values = formValues(request)
    const kept = await keptLater(() => desk.wishes.add(id, draftOf(values)))
    if ('result' in kept) return reply.redirect(`/nights/${id}/wishes`, 303)
    const problems = values.what === 'purpose' ? kept.problems.map(atPurpose) : kept.problems
    return show(request, reply.code(422), id, values.q ?? '', { values, problems })
  })

  app.post(
    '/nights/:id/wishes/stop',
    { config: { role: 'host' }, schema: { params: IdParams } },
    async (request, reply) => {
      const { id } = desk.nights.find(request.params.id)
      const values = formValues(request)
      const act = STOP_ACTS.find((known) => known === values.act)
      const stop = stopNameOf(values.stop)
      if (!act || !stop) throw notFound('stop')
      const kept = await keptLater(() => desk.wishes.act(id, act, stop, stopNameOf(values.other)))
      if ('result' in kept) return reply.redirect(`/nights/${id}/wishes`, 303)
      return show(request, reply.code(422), id, '', { values: {}, problems: kept.problems })
    },
  )

  app.post(
    '/nights/:id/wishes/:wishId/back',
    { config: { role: 'host' }, schema: { params: WishParams } },
    async (request, reply) => {
      const { id, wishId } = request.params
      desk.wishes.takeBack(id, wishId)
      return reply.redirect(`/nights/${id}/wishes`, 303)
    },
  )
}

/** The wish that a form stands for; what its kind does not use is left out. */
function draftOf(values: FormValues): unknown {
  const { what, targetKey, group } = values
  const stationId = values.stationId || null
  if (what === 'purpose') {
    const kinds = THING_GROUP_NAMES.find((name) => name === group)
    const named = kinds === undefined ? { targetKey: group } : { things: [...THING_GROUPS[kinds]] }
    return { kind: 'only', stationId: values.purposeStation, ...named }
  }
  if (what === 'pin') return { kind: what, targetKey, stationId, startsAt: values.startsAt, endsAt: values.endsAt }
  return what === 'ask' ? { kind: what, targetKey } : { kind: what, targetKey, stationId }
}

/** The fields of the form of what a telescope is for, which calls some of them otherwise. */
const PURPOSE_FIELDS: Readonly<Record<string, string>> = {
  stationId: 'purposeStation',
  targetKey: 'group',
  things: 'group',
}
const atPurpose = (problem: Problem): Problem => ({
  ...problem,
  field: PURPOSE_FIELDS[problem.field] ?? problem.field,
})

/** The stop that a form names, or null. */
function stopNameOf(text: string | undefined): StopName | null {
  const [stationId = '', at = ''] = (text ?? '').split(' ')
  const startsAt = new Date(at)
  return stationId === '' || Number.isNaN(startsAt.getTime()) ? null : { stationId, startsAt }
}
