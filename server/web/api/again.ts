import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { AgainState } from '../../desk/again.ts'
import { countOfChanges, type Span, type StationChanges } from '../../tours/changes.ts'
import { wallClock } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Stop } from '../../tours/tour.ts'
import { type NameOf, namesOfNight } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

export const againRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  const summary = 'What is known of a night under way, and what the programme that waits for the host would change'
  app.get(
    '/nights/:id/again',
    { config: { role: 'visitor' }, schema: { summary, params: IdParams } },
    async (request) => {
      const night = desk.nights.find(request.params.id)
      return againJson(desk.again.state(night.id), night, namesOfNight(desk, night, wordsFor(request)))
    },
  )
}

/** `crowd` is the share of the expected people that were counted; `changes` is null while no programme waits. */
function againJson({ at, news, tour, waiting, changes }: AgainState, night: Night, nameOf: NameOf) {
  const wall = (instant: Date) => wallClock(instant, night.site.zone)
  const named = (stationId: string) => ({ stationId, stationName: nameOf(stationId) })
  return {
    at,
    atWall: wall(at),
    zone: night.site.zone,
    shut: news.shut,
    shutUntilAt: news.shutUntilAt,
    shutUntilAtWall: news.shutUntilAt && wall(news.shutUntilAt),
    out: news.out.map(named),
    measured: [...news.cycleSec].map(([stationId, cycleSec]) => ({ ...named(stationId), cycleSec })),
    crowd: news.crowd,
    version: tour.version,
    waitingVersion: waiting?.version ?? null,
    changeCount: waiting && countOfChanges(changes),
    changes: waiting && changes.map((it) => ({ ...named(it.stationId), spans: spansJson(it, nameOf, wall) })),
  }
}

const spansJson = ({ spans }: StationChanges, nameOf: NameOf, wall: (at: Date) => string) =>
  spans.map(({ fromAt, toAt, before, after, isChanged }: Span) => ({
    fromAt,
    fromAtWall: wall(fromAt),
    toAt,
    toAtWall: wall(toAt),
    before: before && thingJson(before, nameOf),
    after: after && thingJson(after, nameOf),
    isChanged,
  }))

const thingJson = ({ targetKey, aim }: Stop, nameOf: NameOf) => ({ targetKey, targetName: nameOf(targetKey), aim })
