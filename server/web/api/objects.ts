import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { ListedThing, ThingList } from '../../desk/thing-kinds.ts'
import { wallClock } from '../../tours/hours.ts'
import type { Words } from '../../words/words.ts'
import { causeOrNull } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { ObjectKey } from './schemas.ts'
import { ThingParams, thingQuery, WhenceQuery, whenceOf } from './thing-query.ts'

const KeyParams = Type.Object({ key: ObjectKey })
const NEAREST = 6

export const objectRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  app.get(
    '/objects',
    {
      config: { role: 'visitor' },
      schema: {
        summary: 'The list to browse, or what a search answers, a page at a time; what to show first comes first',
        querystring: ThingParams,
      },
    },
    async (request) => listJson(await desk.things.list(thingQuery(request.query)), wordsFor(request)),
  )

  app.get(
    '/objects/:key',
    {
      config: { role: 'visitor' },
      schema: {
        summary: 'One object by its key; any other designation leads there by 308',
        params: KeyParams,
        querystring: WhenceQuery,
      },
    },
    async (request, reply) => {
      const { key } = request.params
      const { canonicalKey, object } = desk.objects.find(key)
      if (canonicalKey !== key) return reply.redirect(`/api/objects/${encodeURIComponent(canonicalKey)}`, 308)
      const words = wordsFor(request)
      const story = desk.objects.story(key, words.settings.language) ?? null
      const near = desk.things.near(key, NEAREST).map(({ object: { key: nearKey, name, kind }, ...where }) => ({
        key: nearKey,
        name,
        kind,
        ...where,
      }))
      const { site, month, season, seasonal } = await desk.things.one(object, whenceOf(request.query))
      return reply.send({
        object,
        isOutreach: seasonal !== null,
        story,
        star: desk.things.star(key) ?? null,
        near,
        sources: 'appeal' in object ? desk.things.sourceCounts(object) : null,
        siteId: site.id,
        month,
        season,
        ...seasonalJson(words, seasonal, site.zone),
      })
    },
  )
}

const listJson = ({ things, site, telescopes, ...list }: ThingList, words: Words) => ({
  ...list,
  siteId: site.id,
  zone: site.zone,
  telescopeIds: telescopes.map(({ id }) => id),
  objects: things.map(({ hit, seasonal }) => ({ ...hit, ...seasonalJson(words, seasonal, site.zone) })),
})

/** When a thing is a sight of the evening, and what the month shows of it; `{}` for a star that is not on the list. */
function seasonalJson(words: Words, seasonal: ListedThing['seasonal'], zone: string) {
  if (seasonal === null) return {}
  const { season, chance, telescopeId, isGood, clear } = seasonal
  const span = clear && {
    ...clear,
    fromAtWall: wallClock(clear.fromAt, zone),
    untilAtWall: wallClock(clear.untilAt, zone),
    before: causeOrNull(words, clear.before),
    after: causeOrNull(words, clear.after),
  }
  return { season, chance, telescopeId, isGood, clear: span }
}
