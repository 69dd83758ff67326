import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Fault } from '../../errors.ts'
import { IdParams } from '../api/schemas.ts'
import { againPage } from '../pages/again.ts'
import type { FormState } from '../pages/form.ts'
import { actorOf } from '../roles.ts'
import { againValues, toldOf } from './again-values.ts'
import { formValues, inClockWords, kept } from './form-values.ts'
import { newKey } from './mark-key.ts'
import { namesFrom, type PageNeeds } from './needs.ts'
import { isOfWishes } from './wish-fault.ts'

const CLOCKS = ['opens', 'closes']

interface Shown {
  /** As it was typed; left out for the form as all is known. */
  readonly form?: FormState
  readonly trouble?: Fault
}

export const againRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const show = (request: FastifyRequest, reply: FastifyReply, id: string, { form, trouble }: Shown) => {
    const viewer = viewerOf(request)
    const [night, state] = [desk.nights.find(id), desk.again.state(id)]
    return reply.page(
      'again',
      againPage(viewer, {
        night,
        state,
        versions: desk.tours.versions(id),
        form: form ?? { values: againValues(night, state), problems: [] },
        trouble: trouble ?? null,
        names: namesFrom(desk, viewer.words, id),
        newKey,
      }),
    )
  }

  app.get('/nights/:id/again', { config: { role: 'visitor' }, schema: { params: IdParams } }, async (request, reply) =>
    show(request, reply, request.params.id, {}),
  )

  app.post(
    '/nights/:id/again',
    { config: { role: 'host-phone' }, schema: { params: IdParams } },
    async (request, reply) => {
      const night = desk.nights.find(request.params.id)
      const values = formValues(request)
      const by = actorOf(viewerOf(request).who).name
      const told = kept(() => desk.again.tell(night.id, toldOf(values, night), by))
      if ('problems' in told) {
        return show(request, reply.code(422), night.id, {
          form: { values, problems: told.problems.map(inClockWords(CLOCKS)) },
        })
      }
      try {
        await desk.tours.build(night.id)
      } catch (error) {
        if (isOfWishes(error)) return reply.redirect(`/nights/${night.id}/wishes`, 303)
        if (error instanceof Fault && error.code === 'conflict') {
          return show(request, reply.code(409), night.id, { trouble: error })
        }
        throw error
      }
      return reply.redirect(`/nights/${night.id}/again#new`, 303)
    },
  )

  app.post(
    '/nights/:id/again/drop',
    { config: { role: 'host-phone' }, schema: { params: IdParams } },
    async (request, reply) => {
      const { id } = desk.nights.find(request.params.id)
      const { key = '', tourId = '' } = formValues(request)
      const dropped = { key, kind: 'dropped', stationId: null, payload: { tourId }, secondsAgo: 0 } as const
      const { name, role } = actorOf(viewerOf(request).who)
      desk.marks.record(id, [dropped], name, role)
      return reply.redirect(`/nights/${id}/again`, 303)
    },
  )
}
