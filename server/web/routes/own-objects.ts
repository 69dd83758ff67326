import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import { ObjectKey } from '../api/schemas.ts'
import type { FormState } from '../pages/form.ts'
import { ownObjectsPage } from '../pages/own-objects.ts'
import { formValues, kept } from './form-values.ts'
import type { PageNeeds } from './needs.ts'
import { inAngleWords, NEW_OWN_OBJECT, ownObjectDraftOf } from './own-object-draft.ts'

const KeyParams = Type.Object({ key: ObjectKey })

export const ownObjectRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const show = (request: FastifyRequest, reply: FastifyReply, state: FormState) =>
    reply.page('own-objects', ownObjectsPage(viewerOf(request), { objects: desk.objects.own(), state }))

  app.get('/extras', { config: { role: 'visitor' } }, async (request, reply) =>
    show(request, reply, { values: NEW_OWN_OBJECT, problems: [] }),
  )

  app.post('/extras', { config: { role: 'host' } }, async (request, reply) => {
    const values = formValues(request)
    const added = kept(() => desk.objects.addOwn(ownObjectDraftOf(values)))
    if ('result' in added) return reply.redirect('/extras', 303)
    return show(request, reply.code(422), { values, problems: inAngleWords(added.problems) })
  })

  app.post(
    '/extras/:key/remove',
    { config: { role: 'host' }, schema: { params: KeyParams } },
    async (request, reply) => {
      desk.objects.removeOwn(request.params.key)
      return reply.redirect('/extras', 303)
    },
  )
}
