import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import type { Problem } from '../../errors.ts'
import type { Night, NightDraft } from '../../tours/night.ts'
import type { Site } from '../../tours/site.ts'
import { IdParams } from '../api/schemas.ts'
import { nightsPage } from '../pages/lists.ts'
import { MOST_STATIONS, nightFormPage } from '../pages/night-form.ts'
import { type FormValues, filledRows, formValues, kept, rowCount } from './form-values.ts'
import type { PageNeeds } from './needs.ts'
import { halfHoursOf, newNightValues, nightDraftOf, nightRows, nightValues, rowOfTelescopes } from './night-draft.ts'
import { nightFormProblems } from './night-problems.ts'
import { earlierRow, nightBefore, withWholeKit } from './night-row.ts'
import { siteFactors, withSiteFactor } from './site-factors.ts'

const Text = Type.String({ maxLength: 40 })
/** What a new night may start from. */
const NewQuery = Type.Object({
  siteId: Type.Optional(Text),
  date: Type.Optional(Text),
  opens: Type.Optional(Text),
  closes: Type.Optional(Text),
  row: Type.Optional(Type.Union([Type.Array(Text, { maxItems: 12 }), Text])),
})
const FEWEST_STATIONS = 4

export const nightRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const show = (request: FastifyRequest, reply: FastifyReply, form: NightForm) =>
    reply.page(
      'night-form',
      nightFormPage(viewerOf(request), {
        night:
          form.id === null
            ? null
            : { night: desk.nights.find(form.id), hasTour: desk.tours.current(form.id) !== undefined },
        state: { values: form.values, problems: form.problems },
        halfHours: shownHalfHours(form.values, desk.sites.all()),
        stationRows: Math.max(form.stationRows, rowsOf(form.values)),
        rowFrom: form.rowFrom,
        sites: desk.sites.all(),
        telescopes: desk.telescopes.all(),
        factors: siteFactors(desk),
      }),
    )

  const save = (
    request: FastifyRequest,
    reply: FastifyReply,
    id: string | null,
    keep: (draft: NightDraft) => Night,
  ) => {
    const typed = formValues(request)
    const values = nightRows(typed, desk.telescopes.all(), desk.sites.all())
    const stationRows = rowCount(typed, 'stationRows', FEWEST_STATIONS, MOST_STATIONS)
    if (typed.act === 'more') {
      const more = Math.min(MOST_STATIONS, stationRows + 1)
      return show(request, reply, { id, values, problems: [], stationRows: more })
    }
    if (typed.act === 'all') {
      return show(request, reply, {
        id,
        values: withWholeKit(values, desk.telescopes.all()),
        problems: [],
        stationRows,
      })
    }
    if (typed.act === 'hours') return show(request, reply, { id, values, problems: [], stationRows })
    const night = kept(() => keep(nightDraftOf(withSiteFactor(values, siteFactors(desk)))))
    if ('result' in night) return reply.redirect(`/nights/${night.result.id}`, 303)
    return show(request, reply.code(422), { id, values, problems: nightFormProblems(night.problems), stationRows })
  }

  app.get('/nights', { config: { role: 'visitor' } }, async (request, reply) =>
    reply.page('nights', nightsPage(viewerOf(request), desk.nights.all())),
  )

  app.get('/nights/new', { config: { role: 'host' }, schema: { querystring: NewQuery } }, async (request, reply) => {
    const { row = [], ...asked } = request.query
    const given = { siteId: desk.sites.all().at(-1)?.id, ...asked }
    const chosen = rowOfTelescopes([row].flat())
    const rowFrom = chosen.length > 0 ? undefined : nightBefore(desk.nights.all(), given.siteId)
    const values = newNightValues(given, rowFrom ? earlierRow(rowFrom, desk.telescopes.all()) : chosen)
    return show(request, reply, {
      id: null,
      values: nightRows(values, desk.telescopes.all(), desk.sites.all()),
      problems: [],
      stationRows: FEWEST_STATIONS,
      rowFrom,
    })
  })

  app.post('/nights', { config: { role: 'host' } }, async (request, reply) =>
    save(request, reply, null, (draft) => desk.nights.add(draft)),
  )

  app.get('/nights/:id/edit', { config: { role: 'host' }, schema: { params: IdParams } }, async (request, reply) => {
    const night = desk.nights.find(request.params.id)
    return show(request, reply, {
      id: night.id,
      values: nightValues(night),
      problems: [],
      stationRows: FEWEST_STATIONS,
    })
  })

  app.post('/nights/:id', { config: { role: 'host' }, schema: { params: IdParams } }, async (request, reply) => {
    const { id } = desk.nights.find(request.params.id)
    return save(request, reply, id, (draft) => desk.nights.change(id, draft))
  })
}

interface NightForm {
  readonly id: string | null
  readonly values: FormValues
  readonly problems: readonly Problem[]
  readonly stationRows: number
  /** The earlier night that the row was taken from. */
  readonly rowFrom?: Night | undefined
}

/** How many stations are filled in. */
const rowsOf = (values: FormValues): number => filledRows(values, 'stations', () => true).length

/** The rows of the visitors' table: those of the typed values, which may hold some outside the hours, else by the hours. */
function shownHalfHours(values: FormValues, sites: readonly Site[]): readonly string[] {
  const typed = Object.entries(values).filter(([name]) => /^visitors\.\d+\.startsAt$/.test(name))
  if (typed.length === 0) return halfHoursOf(values, sites)
  return typed.sort(([a], [b]) => rowOf(a) - rowOf(b)).map(([, startsAt]) => startsAt)
}

const rowOf = (name: string): number => Number(name.split('.')[1])
