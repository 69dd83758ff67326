import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { invalid } from '../../errors.ts'
import { type Choices, optionsIn, settingsOf } from '../language.ts'
import { readingPage } from '../pages/reading.ts'
import { formValues } from './form-values.ts'
import { LookQuery } from './look.ts'
import type { PageNeeds } from './needs.ts'

const text = Type.Optional(Type.String({ maxLength: 20 }))
const Query = Type.Object({
  lang: text,
  units: text,
  hours: text,
  from: Type.Optional(Type.String({ maxLength: 300 })),
  ...LookQuery.properties,
})

/** A way within this service, so that nobody is sent elsewhere. */
const ownWay = (from = ''): string => (/^\/(?![/\\])[\w/?=&%+.~:-]*$/.test(from) ? from : '/')

/** In which language, units and clock each reader reads, and those who choose nothing. */
export const readingRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, tables, viewerOf }) => {
  const options = optionsIn(tables)

  app.get('/reading', { config: { role: 'visitor' }, schema: { querystring: Query } }, async (request, reply) => {
    const { lang, units, hours, from, look = 'day' } = request.query
    const hasChosen = [lang, units, hours].some((choice) => choice !== undefined)
    const subject = { options, usual: desk.reading.usual(), from: ownWay(from), hasChosen, look }
    return reply.page('reading', readingPage(viewerOf(request), subject))
  })

  app.post('/reading', { config: { role: 'host' } }, async (request, reply) => {
    const values = formValues(request)
    const chosen: Choices = { lang: values.lang ?? '', units: values.units ?? '', hours: values.hours ?? '' }
    const strange = (['lang', 'units', 'hours'] as const).filter((name) => !options[name].includes(chosen[name] ?? ''))
    if (strange.length > 0) throw invalid(strange.map((field) => ({ field, key: 'problem.choice' })))
    desk.reading.use(settingsOf(chosen, desk.reading.usual()))
    return reply.redirect(`/reading?from=${encodeURIComponent(ownWay(values.from))}`, 303)
  })
}
