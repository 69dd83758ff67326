import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { notFound } from '../../errors.ts'
import { wallClock } from '../../tours/hours.ts'
import type { Missing } from '../../tours/missing.ts'
import type { Words } from '../../words/words.ts'
import { missingText } from '../pages/missing.ts'
import { causeOrNull, remarkJson } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

export const missingRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  const summary = 'Why the showpieces of the night that are not on the programme are not'
  app.get(
    '/nights/:id/missing',
    { config: { role: 'visitor' }, schema: { summary, params: IdParams } },
    async (request) => {
      const { id, site } = desk.nights.find(request.params.id)
      const tour = desk.tours.current(id)
      if (tour === undefined) throw notFound('tour')
      const missing = await desk.missing(tour)
      const words = wordsFor(request)
      return { version: tour.version, zone: site.zone, missing: missing.map((it) => missingJson(words, it, site.zone)) }
    },
  )
}

const missingJson = (words: Words, missing: Missing, zone: string) => ({
  targetKey: missing.targetKey,
  targetName: words.called(missing.name),
  barred: missing.barred && {
    ...missing.barred,
    fromAtWall: missing.barred.fromAt && wallClock(missing.barred.fromAt, zone),
    untilAtWall: missing.barred.untilAt && wallClock(missing.barred.untilAt, zone),
    cause: causeOrNull(words, missing.barred.cause),
  },
  reason: remarkJson(words, missing.reason),
  message: missingText(words, missing, zone),
})
