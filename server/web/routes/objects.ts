import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { type Static, Type } from 'typebox'
import type { ThingSubject } from '../../drawings/thing.ts'
import { calendarDate } from '../../tours/hours.ts'
import type { ObjectHit, ShowObject } from '../../tours/target.ts'
import { ObjectKey } from '../api/schemas.ts'
import { ThingParams, thingQuery, WhenceFields, whenceOf } from '../api/thing-query.ts'
import { objectPage } from '../pages/object.ts'
import { objectsPage } from '../pages/objects.ts'
import type { PageNeeds } from './needs.ts'
import { SearchQuery, searched } from './searched.ts'

const PageParams = Type.Object({ ...ThingParams.properties, ...SearchQuery.properties })
const KeyParams = Type.Object({ key: ObjectKey })
const PageQuery = Type.Object({
  ...WhenceFields,
  look: Type.Optional(Type.Union([Type.Literal('day'), Type.Literal('lamp')])),
})
const NEAREST = 6

export const objectRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const pictureOf = (thing: ShowObject | ObjectHit): ThingSubject => ({
    thing,
    stars: desk.things.stars(thing),
    bv: 'appeal' in thing ? thing.bv : (desk.things.star(thing.key)?.bv ?? null),
  })

  app.get(
    '/objects',
    { config: { role: 'visitor', isKept: true }, schema: { querystring: PageParams } },
    async (request, reply) => {
      const query = thingQuery({ ...request.query, q: searched(request.query.q) })
      const list = await desk.things.list(query)
      const viewer = viewerOf(request)
      return reply.page(
        'objects',
        objectsPage(viewer, {
          query,
          list,
          places: desk.things.places(),
          pictureOf: ({ hit, object }) => pictureOf(object ?? hit),
          thisMonth: calendarDate(viewer.now, list.site.zone).slice(0, 7),
        }),
      )
    },
  )

  app.get(
    '/objects/:key',
    { config: { role: 'visitor', isKept: true }, schema: { params: KeyParams, querystring: PageQuery } },
    async (request, reply) => {
      const { key } = request.params
      const { canonicalKey, object } = desk.objects.find(key)
      if (canonicalKey !== key) return reply.redirect(`/objects/${encodeURIComponent(canonicalKey)}`, 308)
      return show(request, reply, object, request.query)
    },
  )

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    thing: ShowObject | ObjectHit,
    query: Static<typeof PageQuery>,
  ) {
    const viewer = viewerOf(request)
    const { language } = viewer.words.settings
    const one = await desk.things.one(thing, whenceOf(query))
    return reply.page(
      'object',
      objectPage(viewer, {
        thing,
        story: desk.objects.story(thing.key, language),
        star: desk.things.star(thing.key),
        picture: pictureOf(thing),
        one,
        near: desk.things.near(thing.key, NEAREST),
        sources: 'appeal' in thing ? desk.things.sourceCounts(thing) : null,
        places: desk.things.places(),
        nights: desk.nights.all(),
        look: query.look ?? 'day',
        worldEvents: desk.objects.worldEvents(language),
      }),
    )
  }
}
