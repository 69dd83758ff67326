import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import { languageCode } from '../../tours/own-words.ts'
import { ObjectKey } from '../api/schemas.ts'
import type { FormState } from '../pages/form.ts'
import { ownWordsPage } from '../pages/own-words.ts'
import { formValues, kept } from './form-values.ts'
import type { PageNeeds } from './needs.ts'

const schema = {
  params: Type.Object({ key: ObjectKey }),
  querystring: Type.Object({ language: Type.Optional(Type.String({ maxLength: 40 })) }),
}

export const ownWordRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const show = (
    request: FastifyRequest,
    reply: FastifyReply,
    key: string,
    asked: string | undefined,
    state: FormState | null,
  ) => {
    const viewer = viewerOf(request)
    const own = viewer.words.settings.language
    const language = asked === undefined || asked.trim() === '' ? own : languageCode(asked)
    const told = desk.words.of(key, language ?? own)
    return reply.page(
      'own-words',
      ownWordsPage(viewer, {
        name: desk.objects.find(key).object.name,
        told,
        languages: desk.words.languagesOf(key),
        state,
        strangeLanguage: language === undefined ? (asked ?? '') : null,
      }),
    )
  }

  app.get('/objects/:key/words', { config: { role: 'visitor' }, schema }, async (request, reply) => {
    const { key } = request.params
    const { canonicalKey } = desk.objects.find(key)
    const { language } = request.query
    const query = language === undefined ? '' : `?language=${encodeURIComponent(language)}`
    if (canonicalKey !== key) return reply.redirect(`/objects/${encodeURIComponent(canonicalKey)}/words${query}`, 308)
    return show(request, reply, key, language, null)
  })

  app.post('/objects/:key/words', { config: { role: 'host' }, schema }, async (request, reply) => {
    const { key } = request.params
    const { language = '' } = request.query
    const values = formValues(request)
    const told = kept(() => desk.words.put(key, language, values))
    if ('result' in told) return reply.redirect(`/objects/${key}/words?language=${told.result.language}`, 303)
    return show(request, reply.code(422), key, language, { values, problems: told.problems })
  })

  app.post('/objects/:key/words/back', { config: { role: 'host' }, schema }, async (request, reply) => {
    const { key } = request.params
    const { language } = desk.words.of(key, request.query.language ?? '')
    desk.words.takeBack(key, language)
    return reply.redirect(`/objects/${key}/words?language=${language}`, 303)
  })
}
