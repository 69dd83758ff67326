import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { eveningInstant, eveningSpan, nightHours } from '../../tours/hours.ts'
import { type Night, WallClock } from '../../tours/night.ts'
import { IdParams } from '../api/schemas.ts'
import { faultsPage } from '../pages/faults.ts'
import { faultAsked } from './fault-ask.ts'
import { LookQuery } from './look.ts'
import type { PageNeeds } from './needs.ts'

const Typed = Type.Optional(Type.String({ maxLength: 60 }))
const FaultQuery = Type.Object({
  ...LookQuery.properties,
  at: Type.Optional(Type.Union([WallClock, Type.Literal('')])),
  stage: Typed,
  first: Typed,
  second: Typed,
  aimed: Typed,
  seen: Typed,
  side: Typed,
  sideway: Typed,
  height: Typed,
  heightway: Typed,
  unit: Typed,
})

/** What was asked about is not among what stands up. */
const NOT_UP = [{ field: 'aimed', key: 'faults.needs-up' }] as const

export const faultRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, clock, viewerOf }) => {
  app.get(
    '/nights/:id/faults',
    { config: { role: 'visitor' }, schema: { params: IdParams, querystring: FaultQuery } },
    async (request, reply) => {
      const { look = 'day', at: typed = '', ...values } = request.query
      const night = desk.nights.find(request.params.id)
      const at = instantAsked(night, typed, clock.now())
      const { ask, problems } = faultAsked(values)
      const finding = await desk.faults(night.id, at, ask)
      const isLost = ask !== null && finding.answer === null
      const subject = { night, at, look, values, ask, problems: isLost ? NOT_UP : problems, finding }
      return reply.page('faults', faultsPage(viewerOf(request), subject))
    },
  )
}

/** The clock time that was typed; without one now, or on another day the opening. */
function instantAsked(night: Night, typed: string, now: Date): Date {
  if (typed !== '') return eveningInstant(night, typed)
  const { fromAt, untilAt } = eveningSpan(night)
  return fromAt <= now && now < untilAt ? now : nightHours(night).opensAt
}
