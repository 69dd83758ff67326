import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { OwnWordsDraft } from '../../tours/own-words.ts'
import type { ApiNeeds } from './needs.ts'
import { ObjectKey } from './schemas.ts'

const WordParams = Type.Object({ key: ObjectKey, language: Type.String({ minLength: 2, maxLength: 40 }) })

export const ownWordRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk }) => {
  app.get(
    '/objects/:key/words/:language',
    {
      config: { role: 'visitor' },
      schema: {
        summary: 'What is told of a thing in a language: as it ships, by the host, and both together',
        params: WordParams,
      },
    },
    async ({ params: { key, language } }) => desk.words.of(key, language),
  )

  app.put(
    '/objects/:key/words/:language',
    {
      config: { role: 'host' },
      schema: {
        summary: "Put the host's words in the place of those that ship; parts left out stay as they ship",
        params: WordParams,
        body: OwnWordsDraft,
      },
    },
    async ({ params: { key, language }, body }) => desk.words.put(key, language, body),
  )

  app.delete(
    '/objects/:key/words/:language',
    {
      config: { role: 'host' },
      schema: { summary: 'Let the words that ship stand again', params: WordParams },
    },
    async ({ params: { key, language } }, reply) => {
      desk.words.takeBack(key, language)
      return reply.code(204).send()
    },
  )
}
