import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { invalid } from '../../errors.ts'
import type { Night } from '../../tours/night.ts'
import { IdParams } from '../api/schemas.ts'
import { joinCardPage } from '../pages/join-card.ts'
import { lookAsked, PrintQuery } from '../pages/paper-choice.ts'
import { phonesPage } from '../pages/phones.ts'
import { formValues } from './form-values.ts'
import { joinSubject } from './join-subject.ts'
import type { PageNeeds } from './needs.ts'
import { PATIENCE_MS, within } from './within.ts'

const TEN_MIN_MS = 600_000

export const phoneRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, clock, viewerOf, phonesWay }) => {
  const config = { role: 'host' } as const
  const marksInTenMin = ({ id }: Night): number => {
    const fromMs = clock.now().getTime() - TEN_MIN_MS
    return desk.marks.since(id, 0).filter(({ receivedAt }) => receivedAt.getTime() > fromMs).length
  }

  app.get('/nights/:id/phones', { config, schema: { params: IdParams } }, async (request, reply) => {
    const night = desk.nights.find(request.params.id)
    const { id } = night
    const page = phonesPage(viewerOf(request), {
      ...joinSubject({ desk, phonesWay }, night),
      hasTour: desk.tours.current(id) !== undefined,
      isOpen: phonesWay.isOpen,
      isJoinable: desk.joins.isJoinable(id),
      window: desk.joins.window(id),
      pairing: desk.joins.pairing(id),
      phones: desk.joins.phones(id),
      marksInTenMin: marksInTenMin(night),
      freeBytes: await within(PATIENCE_MS, desk.freeBytes()),
    })
    return reply.page('phones', page)
  })

  /** What the host may do on the page, by the name of the act; `value` is the phone or the network that it is about. */
  const ACTS: Readonly<Record<string, (nightId: string, value: string) => unknown>> = {
    turn: (nightId) => desk.joins.turn(nightId),
    window: (nightId) => desk.joins.openWindow(nightId),
    pair: (nightId) => desk.joins.pair(nightId),
    'let-in': (nightId, phoneId) => desk.joins.confirm(nightId, phoneId),
    remove: (nightId, phoneId) => desk.joins.revoke(nightId, phoneId),
    network: (_nightId, name) => {
      if (phonesWay.addresses().some(({ network }) => network === name)) desk.joins.useNetwork(name)
    },
  }

  app.post('/nights/:id/phones', { config, schema: { params: IdParams } }, async (request, reply) => {
    const { id } = desk.nights.find(request.params.id)
    const { act = '', value = '' } = formValues(request)
    if (!Object.hasOwn(ACTS, act)) throw invalid([{ field: 'act', key: 'problem.choice' }])
    ACTS[act]?.(id, value)
    return reply.redirect(`/nights/${id}/phones`, 303)
  })

  const schema = { params: IdParams, querystring: PrintQuery }
  app.get('/nights/:id/print/join-card', { config, schema }, async (request, reply) => {
    const subject = joinSubject({ desk, phonesWay }, desk.nights.find(request.params.id))
    return reply.page('papers', joinCardPage(viewerOf(request), subject, lookAsked(request.query)))
  })
}
