import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { Hole, HoleLine } from '../../tours/hole.ts'
import { wallClock } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { directionText } from '../pages/say.ts'
import { causeOrNull, type NameOf, namesOfNight, remarkJson } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { openParts, SkyParts } from './open-parts.ts'
import { IdParams, Instant, instant } from './schemas.ts'

const HoleQuery = Type.Object({ open: Type.Optional(SkyParts), at: Type.Optional(Instant) })

export const holeRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, clock, wordsFor }) => {
  const summary = 'The best that every telescope can show at once through a hole in the clouds, at an instant or now'
  app.get(
    '/nights/:id/hole',
    { config: { role: 'visitor' }, schema: { summary, params: IdParams, querystring: HoleQuery } },
    async (request) => {
      const { at, open } = request.query
      const night = desk.nights.find(request.params.id)
      const hole = await desk.hole(night.id, openParts(open), at === undefined ? clock.now() : instant('at', at))
      return holeJson(hole, night, wordsFor(request), namesOfNight(desk, night, wordsFor(request)))
    },
  )
}

function holeJson({ at, open, stations, note, meanwhile }: Hole, night: Night, words: Words, nameOf: NameOf) {
  const wall = (instant: Date | null) => instant && wallClock(instant, night.site.zone)
  const lineJson = ({ isSpare: _isSpare, fromAt: _fromAt, ...line }: HoleLine) => ({
    ...line,
    targetName: nameOf(line.targetKey),
    directionText: directionText(words, line),
    untilAtWall: wall(line.untilAt),
    cause: causeOrNull(words, line.cause),
  })
  return {
    at,
    atWall: wall(at),
    zone: night.site.zone,
    open,
    stations: stations.map(({ stationId, lines }) => ({
      stationId,
      stationName: nameOf(stationId),
      lines: lines.map(lineJson),
    })),
    note: note && remarkJson(words, note),
    meanwhile: meanwhile.map((remark) => remarkJson(words, remark)),
  }
}
