import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { Desk } from '../../desk/desk.ts'
import { isSunUp } from '../../sky/sun-up.ts'
import { alignmentTimes } from '../../tours/alignment-times.ts'
import { eveningDate, eveningInstant, eveningSpan, nightHours } from '../../tours/hours.ts'
import { type Night, WallClock } from '../../tours/night.ts'
import { placeOf } from '../../tours/site.ts'
import { sunTonight } from '../../tours/sun-tonight.ts'
import { IdParams } from '../api/schemas.ts'
import { type AlignSubject, alignPage } from '../pages/align.ts'
import { LookQuery } from './look.ts'
import type { PageNeeds } from './needs.ts'

const MINUTE_MS = 60_000
const AlignQuery = Type.Object({ ...LookQuery.properties, at: Type.Optional(WallClock) })

export const alignRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, clock, viewerOf }) => {
  app.get(
    '/nights/:id/align',
    { config: { role: 'visitor' }, schema: { params: IdParams, querystring: AlignQuery } },
    async (request, reply) => {
      const night = desk.nights.find(request.params.id)
      const { at: asked = null, look = 'day' } = request.query
      const subject = { ...(await starsOf(desk, night, asked, clock.now())), look }
      return reply.page('align', alignPage(viewerOf(request), subject))
    },
  )
}

/**
 * The stars of the clock time that was asked for. Without one they are those of now, or of the next useful moment: on
 * another day of the twilight, and while the Sun is up over the field of none.
 */
async function starsOf(desk: Desk, night: Night, asked: string | null, now: Date): Promise<Omit<AlignSubject, 'look'>> {
  const evening = desk.sky.evening(eveningDate(night), placeOf(night.site), night.site.zone)
  const { fromAt: noonAt, untilAt } = eveningSpan(night)
  const isTonight = noonAt <= now && now < untilAt
  const soonest = isTonight ? now : afterSunset(evening.sunsetAt ?? nightHours(night).opensAt)
  const wishedAt = asked === null ? soonest : eveningInstant(night, asked)
  const { cause, fromAt } = await desk.alignment.outlook(night.id, wishedAt)
  const isSunThen = cause === 'sun'
  const at = asked === null && !(isTonight && isSunThen) ? (fromAt ?? wishedAt) : wishedAt
  const isNote = asked !== null || isTonight || fromAt === null
  return {
    night,
    at,
    asked,
    pairs: at.getTime() === fromAt?.getTime() ? await desk.alignment.pairs(night.id, at) : [],
    cause: isNote ? cause : null,
    fromAt,
    sun: sunTonight(night.site, evening, nightHours(night).opensAt),
    isSunUp: (isTonight && isUp(desk, night, now)) || isUp(desk, night, at),
    times: alignmentTimes(night, evening),
  }
}

/** At the very instant of sunset a sliver of the Sun may still be up. */
const afterSunset = (sunsetAt: Date): Date => new Date(sunsetAt.getTime() + MINUTE_MS)

const isUp = ({ sky }: Desk, { site }: Night, at: Date): boolean =>
  isSunUp(sky.bodyLook('sun', at, placeOf(site)).altitudeDeg)
