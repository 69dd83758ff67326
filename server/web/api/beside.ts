import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { BesideHalf, BesideLine } from '../../tours/beside-lines.ts'
import { wallClock } from '../../tours/hours.ts'
import type { Words } from '../../words/words.ts'
import { directionText, pointText } from '../pages/say.ts'
import { leaveByJson, type NameOf, namesOfNight, remarkJson } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

export const besideRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  const summary = 'What every station that is no telescope shows in every half hour, with a programme or without one'
  app.get(
    '/nights/:id/beside',
    { config: { role: 'visitor' }, schema: { summary, params: IdParams } },
    async (request) => {
      const night = desk.nights.find(request.params.id)
      const tour = desk.tours.current(night.id)
      const halves = await desk.beside(night.id, tour)
      const say = {
        words: wordsFor(request),
        nameOf: namesOfNight(desk, night, wordsFor(request)),
        zone: night.site.zone,
      }
      return { version: tour?.version ?? null, zone: night.site.zone, halfHours: halves.map((it) => halfJson(say, it)) }
    },
  )
}

interface Say {
  readonly words: Words
  readonly nameOf: NameOf
  readonly zone: string
}

const halfJson = (say: Say, { stationId, lines, note, ...half }: BesideHalf) => ({
  stationId,
  stationName: say.nameOf(stationId),
  ...half,
  ...wallsOf(say, half),
  lines: lines.map((line) => lineJson(say, line)),
  note: note && remarkJson(say.words, note),
})

const wallsOf = ({ zone }: Say, { fromAt, toAt }: Pick<BesideHalf, 'fromAt' | 'toAt'>) => ({
  fromAtWall: wallClock(fromAt, zone),
  toAtWall: wallClock(toAt, zone),
})

function lineJson(say: Say, line: BesideLine) {
  const { words, nameOf, zone } = say
  if (line.what === 'prompt') return { what: line.what, remark: remarkJson(words, line.remark) }
  const named = { ...line, targetName: nameOf(line.targetKey) }
  const remarksOf = ({ remarks }: Pick<Extract<BesideLine, { what: 'picture' }>, 'remarks'>) =>
    remarks.map((remark) => remarkJson(words, remark))
  switch (line.what) {
    case 'sight':
      return {
        ...named,
        fromAtWall: wallClock(line.fromAt, zone),
        directionText: directionText(words, line),
        leave: leaveByJson(words, line.leave, (at) => wallClock(at, zone)),
        remarks: remarksOf(line),
      }
    case 'pass':
      return {
        ...named,
        ...wallsOf(say, line),
        fromPointText: pointText(words, line.fromPoint),
        toPointText: pointText(words, line.toPoint),
      }
    case 'picture':
      return { ...named, remarks: remarksOf(line) }
    default:
      return { ...named, ...wallsOf(say, line), stationName: nameOf(line.stationId) }
  }
}
