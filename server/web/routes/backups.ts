import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { invalid } from '../../errors.ts'
import { backupsPage, goBackPage } from '../pages/backups.ts'
import { formValues } from './form-values.ts'
import type { PageNeeds } from './needs.ts'

const schema = { params: Type.Object({ name: Type.String({ minLength: 1, maxLength: 80 }) }) }

export const backupRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const config = { role: 'host' } as const

  app.get('/backups', { config }, async (request, reply) => {
    const copies = await desk.backups.all()
    return reply.page('backups', backupsPage(viewerOf(request), desk.backups.status(), copies))
  })

  app.post('/backups', { config }, async (request, reply) => {
    const { act } = formValues(request)
    if (act === 'copy') await desk.backups.copy()
    else if (act === 'stay') desk.backups.stay()
    else throw invalid([{ field: 'act', key: 'problem.choice' }])
    return reply.redirect('/backups', 303)
  })

  app.get('/backups/:name', { config, schema }, async (request, reply) => {
    const copy = await desk.backups.find(request.params.name)
    return reply.page('go-back', goBackPage(viewerOf(request), desk.backups.status(), copy))
  })

  app.post('/backups/:name', { config, schema }, async (request, reply) => {
    await desk.backups.goBack(request.params.name)
    return reply.redirect('/backups', 303)
  })
}
