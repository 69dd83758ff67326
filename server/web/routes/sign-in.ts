import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { Fault } from '../../errors.ts'
import { signInPage } from '../pages/sign-in.ts'
import { localPath } from '../roles.ts'
import { formValues } from './form-values.ts'
import type { PageNeeds } from './needs.ts'

const BackQuery = Type.Object({ back: Type.Optional(Type.String()) })

export const signInRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { viewerOf, signIn }) => {
  app.get('/sign-in', { config: { role: 'visitor' }, schema: { querystring: BackQuery } }, async (request, reply) =>
    reply.page('sign-in', signInPage(viewerOf(request), { values: {}, problems: [] }, localPath(request.query.back))),
  )

  app.post('/sign-in', { config: { role: 'visitor' } }, async (request, reply) => {
    const { pin = '', back } = formValues(request)
    try {
      await signIn.open(request, reply, pin)
    } catch (error) {
      if (!(error instanceof Fault) || error.code !== 'forbidden') throw error
      const state = { values: {}, problems: [{ field: 'pin', key: error.key, values: error.values }] }
      return reply.code(422).page('sign-in', signInPage(viewerOf(request), state, localPath(back)))
    }
    return reply.redirect(localPath(back), 303)
  })

  app.post('/sign-out', { config: { role: 'visitor' } }, async (request, reply) => {
    signIn.close(request, reply)
    return reply.redirect('/', 303)
  })
}
