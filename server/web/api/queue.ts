import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { lineNowOf } from '../../desk/line-now.ts'
import { wallClock } from '../../tours/hours.ts'
import type { LineNow, StationLine } from '../../tours/line-now.ts'
import type { Night } from '../../tours/night.ts'
import { countOf } from '../../tours/visitors.ts'
import { type NameOf, namesOfNight } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

export const queueRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  const summary = 'Who waits where now: what each station shows, how long its line is, when to close it, and the calls'
  app.get(
    '/nights/:id/queue',
    { config: { role: 'visitor' }, schema: { summary, params: IdParams } },
    async (request) => {
      const night = desk.nights.find(request.params.id)
      return queueJson(lineNowOf(desk, night.id), night, namesOfNight(desk, night, wordsFor(request)))
    },
  )
}

function queueJson({ at, people, stations, calls }: LineNow, { site }: Night, nameOf: NameOf) {
  const wall = (moment: Date | null) => moment && wallClock(moment, site.zone)
  return {
    at,
    atWall: wall(at),
    zone: site.zone,
    people: { ...people, count: countOf(people) },
    stations: stations.map((station) => stationJson(station, nameOf, wall)),
    calls: calls.map((call) => ({ ...call, atWall: wall(call.at) })),
  }
}

/** A station with its line; what a line has is null where nobody can look. */
function stationJson(station: StationLine, nameOf: NameOf, wall: (moment: Date | null) => string | null) {
  const { stationId, showing, next, untilAt, queue, trouble, isOut, timedAt, isTimingDue } = station
  return {
    stationId,
    stationName: nameOf(stationId),
    showing: showing && { ...showing, targetName: nameOf(showing.targetKey) },
    untilAt,
    untilAtWall: wall(untilAt),
    next: next && { ...next, targetName: nameOf(next.targetKey), atAtWall: wall(next.atAt) },
    trouble,
    isOut,
    inLine: queue?.inLine ?? null,
    waitMin: queue && Math.round(queue.waitMin * 10) / 10,
    closeLineAt: queue?.closeLineAt ?? null,
    closeLineAtWall: wall(queue?.closeLineAt ?? null),
    isTimeToClose: queue?.isTimeToClose ?? false,
    cycleSec: queue?.cycleSec ?? null,
    looksPerHour: queue?.looksPerHour ?? null,
    isMeasured: queue?.isMeasured ?? false,
    timedAt,
    isTimingDue,
  }
}
