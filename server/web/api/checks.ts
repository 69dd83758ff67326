import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { Check, CheckLine } from '../../tours/check.ts'
import { wallClock } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { causeOrNull, type NameOf, namesOfNight, remarkJson } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams, Instant, instant } from './schemas.ts'

const CheckQuery = Type.Object({ at: Type.Optional(Instant) })

export const checkRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, clock, wordsFor }) => {
  app.get(
    '/nights/:id/check',
    {
      config: { role: 'visitor' },
      schema: { summary: 'What is still well placed, at an instant or now', params: IdParams, querystring: CheckQuery },
    },
    async (request) => {
      const { at } = request.query
      const night = desk.nights.find(request.params.id)
      const check = await desk.checks.at(night.id, at === undefined ? clock.now() : instant('at', at))
      return checkJson(check, night, wordsFor(request), namesOfNight(desk, night, wordsFor(request)))
    },
  )
}

function checkJson(check: Check, night: Night, words: Words, nameOf: NameOf) {
  const wall = (at: Date | null) => at && wallClock(at, night.site.zone)
  const lineJson = (line: CheckLine) => ({
    ...line,
    targetName: nameOf(line.targetKey),
    stationName: nameOf(line.stationId),
    untilAtWall: wall(line.untilAt),
    fromAtWall: wall(line.fromAt),
    cause: causeOrNull(words, line.cause),
  })
  return {
    at: check.at,
    atWall: wall(check.at),
    zone: night.site.zone,
    lines: check.lines.map(lineJson),
    changes: check.changes.map((change) => remarkJson(words, change)),
  }
}
