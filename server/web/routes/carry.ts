import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { type Static, Type } from 'typebox'
import type { Brought } from '../../desk/carry.ts'
import { CARRIED_PARTS } from '../../desk/carry-part.ts'
import { MOST_FILE_LETTERS } from '../../tours/night-file.ts'
import { IdParams } from '../api/schemas.ts'
import { CARRY_HREF, type CarriedKind, carryPage } from '../pages/carry.ts'
import { formValues, kept } from './form-values.ts'
import type { PageNeeds } from './needs.ts'

/** A form may write each letter with three signs; what is longer than a file may be is told so where it is read. */
const CARRY_LIMIT = 3 * MOST_FILE_LETTERS + 4096

const Count = Type.Integer({ minimum: 0, maximum: 100_000 })
/** What a file has changed, as the address says it after a form was sent. */
const DoneQuery = Type.Object({
  night: Type.Optional(Type.String({ minLength: 1, maxLength: 40 })),
  isNew: Type.Optional(Type.Boolean()),
  marks: Type.Optional(Count),
  programmes: Type.Optional(Count),
  parts: Type.Optional(Count),
  differs: Type.Optional(Type.String({ maxLength: 300 })),
  took: Type.Optional(Type.Boolean()),
})

export const carryRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const host = { role: 'host' } as const
  const bring = { night: desk.carry.bringNight, things: desk.carry.bringThings }

  app.get('/nights/:id/file', { config: host, schema: { params: IdParams } }, async (request, reply) => {
    const { date } = desk.nights.find(request.params.id)
    return attachment(reply, `night-${date}.json`, desk.carry.nightFile(request.params.id))
  })

  app.get('/extras/file', { config: host }, async (_request, reply) =>
    attachment(reply, 'things-of-our-own.json', desk.carry.thingsFile()),
  )

  const send = (request: FastifyRequest, reply: FastifyReply, kind: CarriedKind) => {
    const { file: text = '', take } = formValues(request)
    const isTaken = take === 'true'
    const done = kept(() => bring[kind](text, isTaken))
    if ('result' in done) return reply.redirect(`${CARRY_HREF[kind]}?${doneQuery(done.result, isTaken)}`, 303)
    const subject = { kind, text, take: isTaken, problems: done.problems, brought: null }
    return reply.code(422).page('carry', carryPage(viewerOf(request), subject))
  }

  for (const kind of ['night', 'things'] as const) {
    app.get(CARRY_HREF[kind], { config: host, schema: { querystring: DoneQuery } }, async (request, reply) => {
      const { took = false } = request.query
      const subject = { kind, text: '', take: took, problems: [], brought: broughtOf(request.query) }
      return reply.page('carry', carryPage(viewerOf(request as FastifyRequest), subject))
    })
    app.post(CARRY_HREF[kind], { config: host, bodyLimit: CARRY_LIMIT }, async (request, reply) =>
      send(request, reply, kind),
    )
  }
}

const attachment = (reply: FastifyReply, name: string, file: object) =>
  reply
    .type('application/json; charset=utf-8')
    .header('content-disposition', `attachment; filename="${name}"`)
    .send(JSON.stringify(file))

function doneQuery({ nightId, isNewNight, marks, programmes, parts, differs }: Brought, took: boolean): string {
  const counts = { isNew: isNewNight, marks, programmes, parts, differs: differs.join('.'), took }
  const said = Object.entries({ ...(nightId !== null && { night: nightId }), ...counts })
  return new URLSearchParams(said.map(([name, value]): [string, string] => [name, String(value)])).toString()
}

function broughtOf({ night, isNew, marks, programmes = 0, parts = 0, differs = '' }: Static<typeof DoneQuery>) {
  if (marks === undefined) return null
  const named = new Set(differs.split('.'))
  return {
    nightId: night ?? null,
    isNewNight: isNew ?? false,
    marks,
    programmes,
    parts,
    differs: CARRIED_PARTS.filter((name) => named.has(name)),
  }
}
