import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { invalid } from '../../errors.ts'
import { OwnObjectDraft } from '../../tours/own-object.ts'
import { ownObjectProblems } from '../../tours/own-problems.ts'
import { IMPORT_LIMIT } from '../routes/own-csv.ts'
import { importOwn } from '../routes/own-import.ts'
import type { ApiNeeds } from './needs.ts'
import { ObjectKey, refuseDraft } from './schemas.ts'

const KeyParams = Type.Object({ key: ObjectKey })
const ImportBody = Type.Object({
  csv: Type.String({ description: 'A list with a header, as the page of imports describes it' }),
})

export const ownObjectRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  app.get(
    '/objects/own',
    {
      config: { role: 'visitor' },
      schema: { summary: 'Things entered by the host; isListed is false for what was taken off the list' },
    },
    async () => ({ things: desk.own.all() }),
  )

  app.get(
    '/objects/own/:key',
    { config: { role: 'visitor' }, schema: { summary: 'One thing entered by the host', params: KeyParams } },
    async ({ params }) => desk.own.find(params.key),
  )

  app.post(
    '/objects/own',
    {
      config: { role: 'host' },
      attachValidation: true,
      schema: { summary: 'Enter a thing of a kind, with the fields that the kind has', body: OwnObjectDraft },
    },
    async (request, reply) => {
      refuseDraft(request, () => ownObjectProblems(request.body))
      const thing = desk.own.add(request.body)
      return reply.code(201).header('location', `/api/objects/own/${thing.key}`).send(thing)
    },
  )

  app.put(
    '/objects/own/:key',
    {
      config: { role: 'host' },
      attachValidation: true,
      schema: { summary: 'Change a thing that the host entered', params: KeyParams, body: OwnObjectDraft },
    },
    async (request) => {
      const { key } = desk.own.find(request.params.key)
      refuseDraft(request, () => ownObjectProblems(request.body))
      return desk.own.change(key, request.body)
    },
  )

  app.delete(
    '/objects/own/:key',
    { config: { role: 'host' }, schema: { summary: 'Take a thing off the list', params: KeyParams } },
    async ({ params }, reply) => {
      desk.own.retire(params.key)
      return reply.code(204).send()
    },
  )

  app.post(
    '/objects/own/:key/back',
    { config: { role: 'host' }, schema: { summary: 'Put a thing back on the list', params: KeyParams } },
    async ({ params }) => desk.own.bringBack(params.key),
  )

  app.post(
    '/objects/own/import',
    {
      config: { role: 'host' },
      bodyLimit: IMPORT_LIMIT,
      schema: {
        summary: 'Enter all things of a list, or none: what is wrong is named by line and column, 3.ra',
        body: ImportBody,
      },
    },
    async (request, reply) => {
      const imported = importOwn(desk, wordsFor(request), request.body.csv)
      if ('added' in imported) return reply.code(201).send({ things: imported.added })
      throw invalid(
        imported.problems.map(({ line, column, ...problem }) => ({ ...problem, field: `${line}.${column}` })),
      )
    },
  )
}
