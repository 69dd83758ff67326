import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Problem } from '../../errors.ts'
import type { Site } from '../../tours/site.ts'
import { NOTE_KEYS, type SiteNotes } from '../../tours/site-notes.ts'
import { IdParams } from '../api/schemas.ts'
import type { FormState } from '../pages/form.ts'
import { lookAsked, PrintQuery } from '../pages/paper-choice.ts'
import { siteNotesPaper } from '../pages/site-notes.ts'
import { siteNotesForm } from '../pages/site-notes-form.ts'
import { type FormValues, formValues, kept } from './form-values.ts'
import type { PageNeeds } from './needs.ts'

/** What is known of a site may name people and keys, so that all of it is the host's alone. */
export const siteNoteRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const config = { role: 'host' } as const
  const show = (request: FastifyRequest, reply: FastifyReply, site: Site, state: FormState) =>
    reply.page('site-notes-form', siteNotesForm(viewerOf(request), site, state))

  app.get('/sites/:id/notes', { config, schema: { params: IdParams } }, async (request, reply) => {
    const site = desk.sites.find(request.params.id)
    return show(request, reply, site, { values: noteValues(desk.notes.site(site.id)), problems: [] })
  })

  app.post('/sites/:id/notes', { config, schema: { params: IdParams } }, async (request, reply) => {
    const site = desk.sites.find(request.params.id)
    const values = formValues(request)
    const done = kept(() => desk.notes.keepSite(site.id, notesOf(values)))
    if ('result' in done) return reply.redirect('/sites', 303)
    return show(request, reply.code(422), site, { values, problems: done.problems.map(atField) })
  })

  app.get(
    '/sites/:id/notes/print',
    { config, schema: { params: IdParams, querystring: PrintQuery } },
    async (request, reply) => {
      const { params, query } = request
      const site = desk.sites.find(params.id)
      const viewer = viewerOf(request as FastifyRequest)
      return reply.page('papers', siteNotesPaper(viewer, site, desk.notes.site(site.id), lookAsked(query)))
    },
  )
}

const noteValues = ({ own, ...notes }: SiteNotes): FormValues => ({ ...notes, own: own.join('\n') })

/** The notes that a form stands for, the host's own a line each. */
const notesOf = (values: FormValues): object => ({
  ...Object.fromEntries(NOTE_KEYS.map((key) => [key, (values[key] ?? '').trim()])),
  own: (values.own ?? '')
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => line !== ''),
})

/** A line of the host's own has no field but that of them all. */
const atField = (problem: Problem): Problem => ({ ...problem, field: problem.field.replace(/^own\..*$/, 'own') })
