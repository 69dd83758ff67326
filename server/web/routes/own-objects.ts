import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import type { Problem } from '../../errors.ts'
import type { OwnThing } from '../../tours/own-object.ts'
import { ObjectKey } from '../api/schemas.ts'
import { ownFormPage } from '../pages/own-form.ts'
import { ownImportPage } from '../pages/own-import.ts'
import { ownObjectsPage } from '../pages/own-objects.ts'
import { type FormValues, formValues, kept } from './form-values.ts'
import type { PageNeeds } from './needs.ts'
import { IMPORT_LIMIT } from './own-csv.ts'
import { importOwn } from './own-import.ts'
import { inOwnWords, judgedOf, NEW_OWN_OBJECT, ownObjectDraftOf, ownObjectValues } from './own-object-draft.ts'

const KeyParams = Type.Object({ key: ObjectKey })
const AddedQuery = Type.Object({ added: Type.Optional(Type.Integer({ minimum: 1, maximum: 10_000 })) })

export const ownObjectRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const host = { config: { role: 'host' }, schema: { params: KeyParams } } as const
  const readingOf = (request: FastifyRequest) => ({ words: viewerOf(request).words, nights: desk.nights.all() })

  const list = (
    request: FastifyRequest,
    reply: FastifyReply,
    added: number | null,
    problems: readonly Problem[] = [],
  ) =>
    reply.page(
      'own-objects',
      ownObjectsPage(viewerOf(request), { things: desk.own.all(), nights: desk.nights.all(), added, problems }),
    )

  const show = (
    request: FastifyRequest,
    reply: FastifyReply,
    key: string | null,
    values: FormValues,
    problems: readonly Problem[] = [],
  ) =>
    reply.page(
      'own-form',
      ownFormPage(viewerOf(request), { key, state: { values, problems: inOwnWords(problems, values) } }),
    )

  const save = (
    request: FastifyRequest,
    reply: FastifyReply,
    key: string | null,
    keep: (draft: unknown) => OwnThing,
  ) => {
    const values = formValues(request)
    const thing = kept(() => keep(ownObjectDraftOf(judgedOf(values), readingOf(request))))
    if ('result' in thing) return reply.redirect('/extras', 303)
    return show(request, reply.code(422), key, values, thing.problems)
  }

  app.get('/extras', { config: { role: 'visitor' }, schema: { querystring: AddedQuery } }, async (request, reply) =>
    list(request, reply, request.query.added ?? null),
  )

  app.get('/extras/new', { config: { role: 'host' } }, async (request, reply) =>
    show(request, reply, null, NEW_OWN_OBJECT),
  )

  app.post('/extras', { config: { role: 'host' } }, async (request, reply) => save(request, reply, null, desk.own.add))

  app.get('/extras/:key/edit', host, async (request, reply) => {
    const { key, draft } = desk.own.find(request.params.key)
    return show(request, reply, key, ownObjectValues(draft, readingOf(request)))
  })

  app.post('/extras/:key', host, async (request, reply) => {
    const { key } = desk.own.find(request.params.key)
    return save(request, reply, key, (draft) => desk.own.change(key, draft))
  })

  app.post('/extras/:key/remove', host, async (request, reply) => {
    desk.own.retire(request.params.key)
    return reply.redirect('/extras', 303)
  })

  app.post('/extras/:key/back', host, async (request, reply) => {
    const back = kept(() => desk.own.bringBack(request.params.key))
    return 'result' in back ? reply.redirect('/extras', 303) : list(request, reply.code(422), null, back.problems)
  })

  app.get('/extras/import', { config: { role: 'host' } }, async (request, reply) =>
    reply.page('own-import', ownImportPage(viewerOf(request), { list: '', problems: [] })),
  )

  app.post('/extras/import', { config: { role: 'host' }, bodyLimit: IMPORT_LIMIT }, async (request, reply) => {
    const viewer = viewerOf(request)
    const text = formValues(request).list ?? ''
    const imported = importOwn(desk, viewer.words, text)
    if ('added' in imported) return reply.redirect(`/extras?added=${imported.added.length}`, 303)
    return reply.code(422).page('own-import', ownImportPage(viewer, { list: text, problems: imported.problems }))
  })
}
