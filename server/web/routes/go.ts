import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Desk } from '../../desk/desk.ts'
import { invalid } from '../../errors.ts'
import { GO_STATES } from '../../tours/go-judge.ts'
import type { Night } from '../../tours/night.ts'
import { IdParams } from '../api/schemas.ts'
import type { FormState } from '../pages/form.ts'
import { type GoSubject, goPage } from '../pages/go.ts'
import { goLimitsPage } from '../pages/go-limits.ts'
import { thinCloudPage } from '../pages/thin-cloud.ts'
import { actorOf } from '../roles.ts'
import { type FormValues, formValues, kept, withBlanks } from './form-values.ts'
import { goLimitsOf, goPlanOf, goValuesOf, LIMIT_FIELDS, PLAN_FIELDS } from './go-draft.ts'
import { namesFrom, type PageNeeds } from './needs.ts'
import { PATIENCE_MS, within } from './within.ts'

const NOTHING_TYPED: FormState = { values: {}, problems: [] }

export const goRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  async function show(request: FastifyRequest, reply: FastifyReply, id: string, state: FormState) {
    const viewer = viewerOf(request)
    const night = desk.nights.find(id)
    const [thin, suggested] = await Promise.all([within(PATIENCE_MS, desk.go.thinCloud(id)), suggestion(desk, night)])
    const names = namesFrom(desk, viewer.words, id)
    const hasTour = desk.tours.current(id) !== undefined
    return reply.page('go', goPage(viewer, { night, go: desk.go.of(id), hasTour, thin, suggested, names, state }))
  }

  /** Does what a form asks and goes back to the board; what cannot be kept is shown again as it was typed. */
  function act(
    request: FastifyRequest,
    reply: FastifyReply,
    id: string,
    keep: (values: FormValues) => void,
    emptied: readonly string[] = [],
  ) {
    const values = withBlanks(formValues(request), emptied)
    const done = kept(() => keep(values))
    if ('result' in done) return reply.redirect(`/nights/${id}/go`, 303)
    return show(request, reply.code(422), id, { values, problems: done.problems })
  }

  const schema = { params: IdParams }

  app.get('/nights/:id/go', { config: { role: 'operator' }, schema }, async (request, reply) =>
    show(request, reply, request.params.id, NOTHING_TYPED),
  )

  app.post('/nights/:id/go/values', { config: { role: 'host-phone' }, schema }, async (request, reply) => {
    const { id } = desk.nights.find(request.params.id)
    const by = actorOf(viewerOf(request as FastifyRequest).who)
    return act(request, reply, id, (values) => desk.go.enter(id, goValuesOf(values), by))
  })

  app.post('/nights/:id/go/decide', { config: { role: 'host-phone' }, schema }, async (request, reply) => {
    const { id } = desk.nights.find(request.params.id)
    const by = actorOf(viewerOf(request as FastifyRequest).who)
    return act(request, reply, id, (values) => {
      const state = GO_STATES.find((known) => known === values.state)
      if (state === undefined) throw invalid([{ field: 'why', key: 'problem.go-state' }])
      desk.go.decide(id, state, values.why ?? '', by)
    })
  })

  app.post('/nights/:id/go/plan', { config: { role: 'host' }, schema }, async (request, reply) => {
    const { id } = desk.nights.find(request.params.id)
    return act(request, reply, id, (values) => desk.go.plan(id, goPlanOf(values)), PLAN_FIELDS)
  })

  app.post('/nights/:id/go/sentence', { config: { role: 'host' }, schema }, async (request, reply) => {
    const { id } = desk.nights.find(request.params.id)
    return act(request, reply, id, (values) => desk.go.write(id, values.act === 'made' ? '' : (values.sentence ?? '')))
  })

  app.get('/nights/:id/thin-cloud', { config: { role: 'visitor' }, schema }, async (request, reply) => {
    const night = desk.nights.find(request.params.id)
    const viewer = viewerOf(request as FastifyRequest)
    const thin = await desk.go.thinCloud(night.id)
    const names = namesFrom(desk, viewer.words, night.id)
    const hasTour = desk.tours.current(night.id) !== undefined
    return reply.page('thin-cloud', thinCloudPage(viewer, { night, thin, hasTour, names }))
  })
}

/** The limits, which hold on all nights; the address names the one to go back to. */
export const goLimitRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const show = (request: FastifyRequest, reply: FastifyReply, night: Night, state: FormState) => {
    const hasTour = desk.tours.current(night.id) !== undefined
    return reply.page('go-limits', goLimitsPage(viewerOf(request), { night, hasTour, limits: desk.go.limits(), state }))
  }
  const options = { config: { role: 'host' }, schema: { params: IdParams } } as const

  app.get('/nights/:id/go/limits', options, async (request, reply) =>
    show(request, reply, desk.nights.find(request.params.id), NOTHING_TYPED),
  )

  app.post('/nights/:id/go/limits', options, async (request, reply) => {
    const night = desk.nights.find(request.params.id)
    const values = withBlanks(formValues(request), LIMIT_FIELDS)
    const done = kept(() => desk.go.keepLimits(goLimitsOf(values)))
    if ('result' in done) return reply.redirect(`/nights/${night.id}/go`, 303)
    return show(request, reply.code(422), night, { values, problems: done.problems })
  })
}

/** A date in place of a night that is off; null while none is worked out, or one is settled. */
async function suggestion(desk: Desk, night: Night): Promise<GoSubject['suggested']> {
  if (night.state !== 'off' || desk.go.of(night.id).plan.backUpDate !== null) return null
  const telescopeIds = night.stations.flatMap(({ telescope }) => telescope?.id ?? [])
  const found = await within(PATIENCE_MS, desk.dates.one({ siteId: night.site.id, telescopeIds }, night.date))
  return found?.backUp ? { date: found.backUp.date, brokenRules: found.backUp.broken.length } : null
}
