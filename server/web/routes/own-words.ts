import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { type Static, Type } from 'typebox'
import { languageCode } from '../../tours/own-words.ts'
import { ObjectKey } from '../api/schemas.ts'
import type { FormState } from '../pages/form.ts'
import { ownWordsPage } from '../pages/own-words.ts'
import { hrefOf } from '../pages/own-words-night.ts'
import { formValues, kept } from './form-values.ts'
import type { PageNeeds } from './needs.ts'

const Query = Type.Object({
  language: Type.Optional(Type.String()),
  /** The words are those of this night alone, but for those kept `for` every night. */
  night: Type.Optional(Type.String({ minLength: 1, maxLength: 40 })),
  for: Type.Optional(Type.Literal('always')),
})
type Query = Static<typeof Query>
const schema = { params: Type.Object({ key: ObjectKey }), querystring: Query }

/** The night whose words are meant; undefined for those of every night. */
const nightOf = ({ night, for: kept }: Query): string | undefined => (kept === 'always' ? undefined : night)

export const ownWordRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const show = (request: FastifyRequest, reply: FastifyReply, key: string, query: Query, state: FormState | null) => {
    const viewer = viewerOf(request)
    const { language: asked = '', night } = query
    const own = viewer.words.settings.language
    const language = asked.trim() === '' ? own : languageCode(asked)
    const told = desk.words.of(key, language ?? own, nightOf(query))
    return (language === undefined ? reply.code(422) : reply).page(
      'own-words',
      ownWordsPage(viewer, {
        name: viewer.words.called(desk.objects.find(key).object.name),
        told,
        languages: desk.words.languagesOf(key, night),
        state,
        strangeLanguage: language === undefined ? asked : null,
        tonight: night === undefined ? null : { night: desk.nights.find(night), isAlways: query.for === 'always' },
      }),
    )
  }

  app.get('/objects/:key/words', { config: { role: 'visitor' }, schema }, async (request, reply) => {
    const { params, query } = request
    const { canonicalKey } = desk.objects.find(params.key)
    if (canonicalKey !== params.key) return reply.redirect(hrefOf(encodeURIComponent(canonicalKey), query), 308)
    return show(request, reply, canonicalKey, query, null)
  })

  app.post('/objects/:key/words', { config: { role: 'host' }, schema }, async (request, reply) => {
    const { params, query } = request
    const values = formValues(request)
    const told = kept(() => desk.words.put(params.key, query.language ?? '', values, nightOf(query)))
    if ('problems' in told)
      return show(request, reply.code(422), params.key, query, { values, problems: told.problems })
    return reply.redirect(hrefOf(params.key, { ...query, language: told.result.language }), 303)
  })

  app.post('/objects/:key/words/back', { config: { role: 'host' }, schema }, async (request, reply) => {
    const { params, query } = request
    const { language } = desk.words.of(params.key, query.language ?? '', nightOf(query))
    desk.words.takeBack(params.key, language, nightOf(query))
    return reply.redirect(hrefOf(params.key, { ...query, language }), 303)
  })
}
