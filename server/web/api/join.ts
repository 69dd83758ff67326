import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { ApiNeeds } from './needs.ts'

const JoinBody = Type.Object({
  secret: Type.String({ minLength: 4, maxLength: 40 }),
  name: Type.String({ minLength: 1, maxLength: 40 }),
  role: Type.Union([Type.Literal('operator'), Type.Literal('helper')]),
  phoneAt: Type.Optional(Type.String({ format: 'date-time' })),
})

export const joinRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { joinDoor }) => {
  app.post(
    '/join',
    { config: { role: 'visitor' }, schema: { summary: 'Let a phone in by a code of the night', body: JoinBody } },
    async (request, reply) => {
      const { secret, name, role, phoneAt } = request.body
      const phoneMs = phoneAt === undefined ? null : Date.parse(phoneAt)
      const who = joinDoor.open(request, reply, { secret, name, role, phoneMs })
      const { nightId, isConfirmed, aheadSec } = who
      return reply.code(201).send({ role: who.role, name: who.name, nightId, isConfirmed, aheadSec })
    },
  )
}
