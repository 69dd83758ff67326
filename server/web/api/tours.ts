import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import type { TourState } from '../../desk/desk.ts'
import { notFound } from '../../errors.ts'
import { wallClock } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Spare, Stop, Tour } from '../../tours/tour.ts'
import type { Words } from '../../words/words.ts'
import { causeOrNull, leaveByJson, type NameOf, namesOfNight, remarkJson } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams, VersionNumber } from './schemas.ts'

const VersionQuery = Type.Object({ version: Type.Optional(VersionNumber) })

const BuildBody = Type.Object({
  seed: Type.Optional(Type.Integer({ minimum: 0, maximum: 4_294_967_295 })),
  steps: Type.Optional(Type.Integer({ minimum: 1, maximum: 10_000_000 })),
})

export const tourRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  const answer = (request: FastifyRequest, nightId: string, tour: Tour) => {
    const night = desk.nights.find(nightId)
    return tourJson(
      tour,
      desk.tours.stateOf(tour),
      night,
      wordsFor(request),
      namesOfNight(desk, night, wordsFor(request)),
    )
  }

  app.get(
    '/nights/:id/tour',
    {
      config: { role: 'visitor' },
      schema: {
        summary: 'The programme that the row goes by, or another version of it',
        params: IdParams,
        querystring: VersionQuery,
      },
    },
    async (request) => {
      const { id } = desk.nights.find(request.params.id)
      const { version } = request.query
      const tour = version === undefined ? desk.tours.current(id) : desk.tours.version(id, version)
      if (!tour) throw notFound('tour')
      return answer(request, id, tour)
    },
  )

  app.post(
    '/nights/:id/tour',
    {
      config: { role: 'host-phone' },
      preValidation: async (request) => {
        request.body ??= {}
      },
      schema: { summary: 'Build a programme and keep it as the next version', params: IdParams, body: BuildBody },
    },
    async (request, reply) => {
      const { id } = request.params
      const tour = await desk.tours.build(id, request.body)
      return reply.code(201).send(answer(request, id, tour))
    },
  )
}

/**
 * A programme as JSON: names and clock times beside keys and instants; `gap` is the share of the bound not reached;
 * `isStale` says that the night was changed after it was built, `waitingVersion` which newer one waits for the host.
 */
function tourJson(
  { tookOverAtSeq: _seq, ...tour }: Tour,
  { isCurrent, isStale, waiting }: TourState,
  night: Night,
  words: Words,
  nameOf: NameOf,
) {
  const wall = (at: Date) => wallClock(at, night.site.zone)
  return {
    ...tour,
    zone: night.site.zone,
    gap: gapOf(tour),
    isCurrent,
    isStale,
    waitingVersion: waiting?.version ?? null,
    stops: tour.stops.map((stop) => stopJson(stop, words, nameOf, wall)),
    spares: tour.spares.map((spare) => spareJson(spare, words, nameOf, wall)),
    notices: tour.notices.map((notice) => remarkJson(words, notice)),
  }
}

const gapOf = ({ value, bound }: Pick<Tour, 'value' | 'bound'>): number | null =>
  bound === null || bound <= 0 ? null : Math.max(0, (bound - value) / bound)

const stopJson = (stop: Stop, words: Words, nameOf: NameOf, wall: (at: Date) => string) => ({
  ...stop,
  targetName: nameOf(stop.targetKey),
  stationName: nameOf(stop.stationId),
  startsAtWall: wall(stop.startsAt),
  endsAtWall: wall(stop.endsAt),
  leaveBy: leaveByJson(words, stop.leaveBy, wall),
  reasons: stop.reasons.map((reason) => remarkJson(words, reason)),
})

const spareJson = (spare: Spare, words: Words, nameOf: NameOf, wall: (at: Date) => string) => ({
  ...spare,
  targetName: nameOf(spare.targetKey),
  stationName: nameOf(spare.stationId),
  fromAtWall: wall(spare.fromAt),
  untilAtWall: wall(spare.untilAt),
  cause: causeOrNull(words, spare.cause),
})
