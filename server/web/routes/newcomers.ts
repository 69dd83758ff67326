import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Fault, invalid } from '../../errors.ts'
import { IdParams } from '../api/schemas.ts'
import { newcomersPage } from '../pages/newcomers.ts'
import { formValues, numberOf } from './form-values.ts'
import type { PageNeeds } from './needs.ts'

export const newcomerRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  async function show(request: FastifyRequest, reply: FastifyReply, siteId: string, trouble: string | null) {
    const site = desk.sites.find(siteId)
    const [learning, inUse] = [await desk.learning.ofSite(site.id), desk.learning.inUse(site.id)]
    return reply.page('newcomers', newcomersPage(viewerOf(request), { site, learning, inUse, trouble }))
  }

  app.get(
    '/sites/:id/newcomers',
    { config: { role: 'visitor' }, schema: { params: IdParams } },
    async (request, reply) => show(request, reply, request.params.id, null),
  )

  app.post(
    '/sites/:id/newcomers',
    { config: { role: 'host' }, schema: { params: IdParams } },
    async (request, reply) => {
      const { id } = desk.sites.find(request.params.id)
      const { act, factor } = formValues(request)
      if (act === 'usual') desk.learning.forget(id)
      else if (act !== 'use') throw invalid([{ field: 'act', key: 'problem.choice' }])
      else {
        const trouble = await conflictOf(desk.learning.use(id, numberOf(factor)))
        if (trouble !== null) return show(request, reply.code(409), id, trouble)
      }
      return reply.redirect(`/sites/${id}/newcomers`, 303)
    },
  )
}

/** The code of a conflict that some work ran into, null when it was done; anything else rises. */
async function conflictOf(work: Promise<void>): Promise<string | null> {
  try {
    await work
    return null
  } catch (error) {
    if (error instanceof Fault && error.code === 'conflict') return error.key
    throw error
  }
}
