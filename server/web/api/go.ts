import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { wallClock } from '../../tours/hours.ts'
import { publishedSentence } from '../pages/go-text.ts'
import { namesOfNight, remarkJson } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

export const goRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  app.get(
    '/nights/:id/go',
    {
      config: { role: 'operator' },
      schema: {
        summary: 'Whether the night takes place: values against the host’s limits, what is proposed, what was decided',
        params: IdParams,
      },
    },
    async (request) => {
      const night = desk.nights.find(request.params.id)
      const go = desk.go.of(night.id)
      const sentence = publishedSentence(wordsFor(request), night, go)
      const decisionAtWall = wallClock(go.decisionAt, night.site.zone)
      return { ...go, state: night.state, zone: night.site.zone, decisionAtWall, sentence }
    },
  )

  app.get(
    '/nights/:id/thin-cloud',
    {
      config: { role: 'visitor' },
      schema: { summary: 'What the row would show through thin cloud: Moon and planets alone', params: IdParams },
    },
    async (request) => {
      const night = desk.nights.find(request.params.id)
      const { stops, notices, notes } = await desk.go.thinCloud(night.id)
      const words = wordsFor(request)
      const nameOf = namesOfNight(desk, night, words)
      const { zone } = night.site
      return {
        zone,
        notes: notes.map((note) => remarkJson(words, note)),
        notices: notices.map((notice) => remarkJson(words, notice)),
        stops: stops.map(({ stationId, targetKey, aim, startsAt, endsAt, chance, view }) => ({
          ...{ stationId, stationName: nameOf(stationId), targetKey, targetName: nameOf(targetKey), aim },
          ...{ startsAt, startsAtWall: wallClock(startsAt, zone), endsAt, endsAtWall: wallClock(endsAt, zone) },
          chance,
          view,
        })),
      }
    },
  )
}
