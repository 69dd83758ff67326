import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { ToldWish } from '../../desk/wishes.ts'
import { WishDraft } from '../../tours/wish.ts'
import type { Words } from '../../words/words.ts'
import { type NameOf, namesOfNight, remarkJson } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

const WishParams = Type.Object({ ...IdParams.properties, wishId: Type.String({ minLength: 1, maxLength: 40 }) })

export const wishRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  app.get(
    '/nights/:id/wishes',
    {
      config: { role: 'visitor' },
      schema: { summary: 'What the host wishes of the programme, and what each wish costs', params: IdParams },
    },
    async (request) => {
      const night = desk.nights.find(request.params.id)
      const told = await desk.wishes.told(night.id)
      const nameOf = namesOfNight(desk, night, wordsFor(request))
      return { zone: night.site.zone, wishes: told.map((wish) => wishJson(wish, wordsFor(request), nameOf)) }
    },
  )

  app.post(
    '/nights/:id/wishes',
    {
      config: { role: 'host' },
      schema: {
        summary: 'Wish: pin, bar or ask for a thing, or say what a station is for',
        params: IdParams,
        body: WishDraft,
      },
    },
    async (request, reply) => {
      const { id } = request.params
      const wish = await desk.wishes.add(id, request.body)
      return reply.code(201).header('location', `/api/nights/${id}/wishes`).send(wish)
    },
  )

  app.delete(
    '/nights/:id/wishes/:wishId',
    { config: { role: 'host' }, schema: { summary: 'Take a wish back', params: WishParams } },
    async ({ params: { id, wishId } }, reply) => {
      desk.wishes.takeBack(id, wishId)
      return reply.code(204).send()
    },
  )
}

/** A wish as JSON: `cost` is null when nobody would notice it, `isReckoned` says whether that is known yet. */
const wishJson = ({ wish, conflict, isAsleep, loss }: ToldWish, words: Words, nameOf: NameOf) => ({
  ...wish,
  isAsleep,
  isReckoned: loss !== undefined,
  cost: loss ? { ...loss, targetName: nameOf(loss.targetKey) } : null,
  conflict: conflict.map((remark) => remarkJson(words, remark)),
})
