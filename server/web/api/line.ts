import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { LineAnswer } from '../../desk/desk.ts'
import { nightHours, wallClock } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { ReckonedStop } from '../../tours/simulation-reckoned.ts'
import type { LineReport, StopReport } from '../../tours/simulation-report.ts'
import { type NameOf, namesOfNight } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

export const lineRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  const summary = 'How long people wait with the programme of a night and what they see: by arithmetic, and simulated'
  app.get(
    '/nights/:id/line',
    { config: { role: 'visitor' }, schema: { summary, params: IdParams } },
    async (request) => {
      const night = desk.nights.find(request.params.id)
      return lineJson(await desk.line(night.id), night, namesOfNight(desk, night, wordsFor(request)))
    },
  )
}

/** The answer with names beside keys, and instants with clock times in the place of seconds from the opening. */
function lineJson({ version, seed, reckoned, simulated }: LineAnswer, night: Night, nameOf: NameOf) {
  const wall = (at: Date) => wallClock(at, night.site.zone)
  return {
    version,
    seed,
    zone: night.site.zone,
    reckoned: { ...reckoned, stops: reckoned.stops.map((stop) => reckonedJson(stop, nameOf, wall)) },
    simulated: simulatedJson(simulated, night, nameOf),
  }
}

const named = <One extends { readonly stationId: string }>(one: One, nameOf: NameOf) => ({
  ...one,
  stationName: nameOf(one.stationId),
})

const reckonedJson = (stop: ReckonedStop, nameOf: NameOf, wall: (at: Date) => string) => ({
  ...named(stop, nameOf),
  targetName: nameOf(stop.targetKey),
  startsAtWall: wall(stop.startsAt),
  endsAtWall: wall(stop.endsAt),
  closeAtWall: wall(stop.closeAt),
})

function simulatedJson(report: LineReport, night: Night, nameOf: NameOf) {
  const { opensAt } = nightHours(night)
  const moment = (sec: number): Date => new Date(opensAt.getTime() + Math.round(sec * 1000))
  const wall = (sec: number) => wallClock(moment(sec), night.site.zone)
  const stopJson = ({ fromSec, untilSec, closeSec, ...stop }: StopReport) => ({
    ...named(stop, nameOf),
    targetName: nameOf(stop.targetKey),
    firstLookAt: moment(fromSec),
    endsAt: moment(untilSec),
    closeAt: moment(closeSec),
    closeAtWall: wall(closeSec),
  })
  return {
    ...report,
    looksByStation: report.looksByStation.map((station) => named(station, nameOf)),
    looksByTarget: report.looksByTarget.map((target) => ({ ...target, targetName: nameOf(target.targetKey) })),
    halfHours: report.halfHours.map(({ fromSec, people, longest }) => ({
      startsAt: moment(fromSec),
      startsAtWall: wall(fromSec),
      people,
      longest: longest && named(longest, nameOf),
    })),
    stops: report.stops.map(stopJson),
  }
}
