import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { ApiNeeds } from './needs.ts'

const PinBody = Type.Object({ pin: Type.String({ minLength: 1, maxLength: 20 }) })

export const sessionRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { signIn }) => {
  app.post(
    '/session',
    { config: { role: 'visitor' }, schema: { summary: 'Sign in as host, at the laptop only', body: PinBody } },
    async (request, reply) => {
      await signIn.open(request, reply, request.body.pin)
      return reply.code(201).send({ role: 'host' })
    },
  )

  app.delete('/session', { config: { role: 'visitor' }, schema: { summary: 'Sign out' } }, async (request, reply) => {
    signIn.close(request, reply)
    return reply.code(204).send()
  })
}
