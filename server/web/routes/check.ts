import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { nightHours, quarterHours, wallClock } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import { IdParams, Instant, instant } from '../api/schemas.ts'
import { checkPage } from '../pages/check.ts'
import { emptyNotes, programmeNotes } from '../pages/programme-notes.ts'
import { LookQuery } from './look.ts'
import { newKey } from './mark-key.ts'
import { namesFrom, type PageNeeds } from './needs.ts'

const AtQuery = Type.Object({ ...LookQuery.properties, at: Type.Optional(Instant) })

export const checkRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, clock, viewerOf }) => {
  app.get(
    '/nights/:id/check',
    { config: { role: 'visitor' }, schema: { params: IdParams, querystring: AtQuery } },
    async (request, reply) => {
      const night = desk.nights.find(request.params.id)
      const tour = desk.tours.current(night.id)
      if (tour === undefined) return reply.redirect(`/nights/${night.id}/programme`, 303)
      const { at, look } = request.query
      const check = await desk.checks.at(
        night.id,
        at === undefined ? halfHourOf(night, clock.now()) : instant('at', at),
      )
      const viewer = viewerOf(request)
      const names = namesFrom(desk, viewer.words)
      const state = desk.tours.stateOf(tour)
      const notes = [...programmeNotes(viewer, { night, tour, state, newKey }), ...emptyNotes(viewer, tour)]
      return reply.page('check', checkPage(viewer, night, check, halfHours(night), names, notes, look))
    },
  )
}

const halfHours = (night: Night): Date[] =>
  quarterHours(night).filter((at) => /:[03]0$/.test(wallClock(at, night.site.zone)))

/** The instant to check when none is asked for: now during the public hours, else their nearer end. */
function halfHourOf(night: Night, now: Date): Date {
  const { opensAt, closesAt } = nightHours(night)
  if (now < opensAt) return opensAt
  return now > closesAt ? closesAt : now
}
