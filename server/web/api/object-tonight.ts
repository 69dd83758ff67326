import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { wallClock } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { ObjectTonight, StationTonight } from '../../tours/object-tonight.ts'
import type { Words } from '../../words/words.ts'
import { causeOrNull, type NameOf, namesOfNight, remarkJson } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams, Instant, instant, ObjectKey } from './schemas.ts'

const Params = Type.Object({ ...IdParams.properties, key: ObjectKey })
const AtQuery = Type.Object({ at: Type.Optional(Instant) })

export const objectTonightRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  const summary =
    'One object on one night: when it is clear, what each telescope shows, why it is on the programme or not'
  app.get(
    '/nights/:id/objects/:key',
    { config: { role: 'visitor' }, schema: { summary, params: Params, querystring: AtQuery } },
    async (request, reply) => {
      const { id, key } = request.params
      const { canonicalKey } = desk.objects.find(key)
      if (canonicalKey !== key) return reply.redirect(`/api/nights/${id}/objects/${canonicalKey}`, 308)
      const { at } = request.query
      const tonight = await desk.tonight(id, key, at === undefined ? null : instant('at', at))
      const night = desk.nights.find(id)
      return tonightJson(tonight, night, wordsFor(request), namesOfNight(desk, night, wordsFor(request)))
    },
  )
}

function tonightJson(tonight: ObjectTonight, night: Night, words: Words, nameOf: NameOf) {
  const wall = (at: Date) => wallClock(at, night.site.zone)
  return {
    ...tonight,
    targetName: nameOf(tonight.targetKey),
    atWall: wall(tonight.at),
    zone: night.site.zone,
    clear: tonight.clear.map((span) => ({
      ...span,
      fromAtWall: wall(span.fromAt),
      untilAtWall: wall(span.untilAt),
      before: causeOrNull(words, span.before),
      after: causeOrNull(words, span.after),
    })),
    stations: tonight.stations.map((station) => stationJson(station, words, nameOf)),
    verdict: tonight.verdict.map((remark) => remarkJson(words, remark)),
  }
}

const stationJson = (station: StationTonight, words: Words, nameOf: NameOf) => ({
  ...station,
  stationName: nameOf(station.stationId),
  quarters: station.quarters.map((quarter) => ({ ...quarter, cause: causeOrNull(words, quarter.cause) })),
  sighting: {
    ...station.sighting,
    reasons: station.sighting.reasons.map((reason) => ({
      ...remarkJson(words, reason),
      magnitudes: reason.magnitudes ?? null,
    })),
  },
})
