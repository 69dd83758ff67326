import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { OwnObjectDraft, ownObjectProblems } from '../../tours/own-object.ts'
import type { ApiNeeds } from './needs.ts'
import { ObjectKey, refuseDraft } from './schemas.ts'

const KeyParams = Type.Object({ key: ObjectKey })

export const ownObjectRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk }) => {
  app.get(
    '/objects/own',
    { config: { role: 'visitor' }, schema: { summary: 'Comets and stars entered by the host' } },
    async () => ({ objects: desk.objects.own() }),
  )

  app.post(
    '/objects/own',
    {
      config: { role: 'host' },
      attachValidation: true,
      schema: { summary: 'Enter a comet or a star', body: OwnObjectDraft },
    },
    async (request, reply) => {
      refuseDraft(request, () => ownObjectProblems(request.body))
      const object = desk.objects.addOwn(request.body)
      return reply.code(201).header('location', `/api/objects/${object.key}`).send(object)
    },
  )

  app.delete(
    '/objects/own/:key',
    {
      config: { role: 'host' },
      schema: { summary: 'Take a comet or star that the host entered off the list', params: KeyParams },
    },
    async ({ params }, reply) => {
      desk.objects.removeOwn(params.key)
      return reply.code(204).send()
    },
  )
}
