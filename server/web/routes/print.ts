import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import { IdParams } from '../api/schemas.ts'
import { CardFields, cardChoice } from '../pages/card-choice.ts'
import type { FormState } from '../pages/form.ts'
import { ChoiceQuery, copiesAsked, offeredPieces, PrintQuery } from '../pages/paper-choice.ts'
import { PIECE_NAMES, type PrintSubject, papersPage } from '../pages/papers.ts'
import { papersForm } from '../pages/papers-form.ts'
import { printTonightPage } from '../pages/print-tonight.ts'
import type { Viewer } from '../pages/sheet.ts'
import { type FormValues, formValues, kept, keptLater } from './form-values.ts'
import { joinSubject } from './join-subject.ts'
import type { PageNeeds } from './needs.ts'
import { printed } from './print-subject.ts'

const PieceParams = Type.Object({
  ...IdParams.properties,
  piece: Type.Union(PIECE_NAMES.map((name) => Type.Literal(name))),
})
export const printRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf, phonesWay }) => {
  /** Everything that the reader may print; the join card is the host's. */
  const offeredTo = (viewer: Viewer, subject: PrintSubject) =>
    offeredPieces(viewer, subject, viewer.mayHost ? joinSubject({ desk, phonesWay }, subject.night) : null)

  const config = { role: 'visitor' } as const
  const chosen = { params: IdParams, querystring: ChoiceQuery }
  app.get('/nights/:id/papers', { config, schema: chosen }, async (request, reply) => {
    const { params, query } = request
    const night = desk.nights.find(params.id)
    if (desk.tours.current(night.id) === undefined) return reply.redirect(`/nights/${night.id}/programme`, 303)
    const viewer = viewerOf(request as FastifyRequest)
    const form = await printed(desk, { viewer, id: night.id, query }, (subject) =>
      papersForm(viewer, subject, offeredTo(viewer, subject), copiesAsked(query)),
    )
    return reply.page('papers-form', form)
  })

  app.post(
    '/nights/:id/papers/group',
    { config: { role: 'host' }, schema: { params: IdParams } },
    async (request, reply) => {
      const { id } = desk.nights.find(request.params.id)
      const values = formValues(request)
      const told = kept(() => desk.groupText.put(values.group ?? ''))
      if (!('problems' in told)) return reply.redirect(`/nights/${id}/papers#group`, 303)
      return showAgain(request as FastifyRequest, reply, id, { values, problems: told.problems })
    },
  )

  /** The choice again as it was made, with what is wrong with it. */
  async function showAgain(request: FastifyRequest, reply: FastifyReply, id: string, state: FormState) {
    const viewer = viewerOf(request)
    const form = await printed(desk, { viewer, id, query: {} }, (subject) =>
      papersForm(viewer, subject, offeredTo(viewer, subject), null, state),
    )
    return reply.code(422).page('papers-form', form)
  }

  const typed = { config, schema: chosen, attachValidation: true }
  app.get('/nights/:id/print/tonight', typed, async (request, reply) => {
    const { params, query, validationError } = request
    const viewer = viewerOf(request as FastifyRequest)
    const done = await keptLater(async () => {
      if (validationError) throw validationError
      return printed(desk, { viewer, id: params.id, query }, (subject) =>
        printTonightPage(viewer, subject, offeredTo(viewer, subject), copiesAsked(query)),
      )
    })
    if ('result' in done) return reply.page('papers', done.result)
    return showAgain(request as FastifyRequest, reply, params.id, { values: askedOf(query), problems: done.problems })
  })

  const single = { params: PieceParams, querystring: Type.Object({ ...PrintQuery.properties, ...CardFields }) }
  app.get('/nights/:id/print/:piece', { config, schema: single }, async (request, reply) => {
    const { params, query } = request
    const viewer = viewerOf(request as FastifyRequest)
    const page = await printed(desk, { viewer, id: params.id, query, cards: cardChoice(query) }, (subject) =>
      papersPage(viewer, subject, params.piece),
    )
    return reply.page('papers', page)
  })
}

/** What an address asks, as the texts of its form. */
const askedOf = (query: object): FormValues =>
  Object.fromEntries(Object.entries(query).map(([name, value]) => [name, String(value)]))
