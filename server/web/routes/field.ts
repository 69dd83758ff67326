import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'
import type { Desk } from '../../desk/desk.ts'
import { invalid, notFound } from '../../errors.ts'
import { standing } from '../../tours/fold.ts'
import { nightHours, quarterHours, wallClock } from '../../tours/hours.ts'
import type { Mark } from '../../tours/mark.ts'
import { newsOf } from '../../tours/news.ts'
import type { Night, Station } from '../../tours/night.ts'
import { type FieldSubject, fieldPage } from '../pages/field.ts'
import type { FieldGround } from '../pages/field-ground.ts'
import { fieldRowPage } from '../pages/field-row.ts'
import { actorOf } from '../roles.ts'
import { atLabel, fieldMark, wayBack } from './field-mark.ts'
import { kept } from './form-values.ts'
import { LookQuery, lookOf } from './look.ts'
import { newKeyIn } from './mark-key.ts'
import { namesFrom, type PageNeeds } from './needs.ts'
import { SearchQuery, searched } from './searched.ts'
import { telescopeHits } from './telescope-hits.ts'
import { withinOf } from './within.ts'

const Id = Type.String({ minLength: 1, maxLength: 40 })
const RowParams = Type.Object({ nightId: Id })
const StationParams = Type.Object({ nightId: Id, stationId: Id })
const StationQuery = Type.Object({ ...LookQuery.properties, ...SearchQuery.properties })

const FOUND = 6

export const fieldRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  const knownOf = (request: FastifyRequest, reply: FastifyReply, nightId: string, look: 'day' | 'lamp'): Known => {
    const [night, tour, field] = [desk.nights.find(nightId), desk.tours.current(nightId), desk.marks.field(nightId)]
    const marks = desk.marks.since(nightId, 0)
    const names = namesFrom(desk, viewerOf(request).words, nightId)
    const version = desk.marks.version(nightId)
    const news = newsOf(night, marks, field.at)
    return { night, tour, field, marks, news, version, names, look, newKey: newKeyIn(reply) }
  }

  app.get(
    '/field/:nightId',
    { config: { role: 'visitor', isKept: true }, schema: { params: RowParams, querystring: LookQuery } },
    async (request, reply) => {
      const { nightId } = request.params
      const look = lookOf(request, reply, { look: request.query.look, path: '/field', usual: 'lamp' })
      const [viewer, known] = [viewerOf(request), knownOf(request, reply, nightId, look)]
      const phones = viewer.mayAct ? desk.joins.phones(nightId).filter(({ isConfirmed }) => isConfirmed) : []
      const beside = await besideOf(desk, known, withinOf(reply))
      return reply.page('field-row', fieldRowPage(viewer, { ...known, phones, beside }))
    },
  )

  app.get(
    '/field/:nightId/:stationId',
    { config: { role: 'visitor', isKept: true }, schema: { params: StationParams, querystring: StationQuery } },
    async (request, reply) => {
      const { nightId, stationId } = request.params
      const look = lookOf(request, reply, { look: request.query.look, path: '/field', usual: 'lamp' })
      const known = knownOf(request, reply, nightId, look)
      const station = stationOf(known.night, stationId)
      const query = searched(request.query.q)
      const inTime = withinOf(reply)
      const subject: FieldSubject = { ...known, ...(await workedOut(desk, { known, station, query, inTime })), query }
      return reply.page('field', fieldPage(viewerOf(request), subject, station))
    },
  )

  app.post(
    '/field/:nightId/marks',
    { config: { role: 'operator' }, schema: { params: RowParams } },
    async (request, reply) => {
      const { nightId } = request.params
      const { name, role } = actorOf(viewerOf(request).who)
      const done = kept(() => desk.marks.record(nightId, [fieldMark(request)], name, role))
      if ('problems' in done) throw invalid(done.problems.map(atLabel(viewerOf(request).words)))
      return reply.redirect(wayBack(request, nightId), 303)
    },
  )
}

function stationOf(night: Night, id: string): Station {
  const station = night.stations.find((found) => found.id === id)
  if (!station) throw notFound('station')
  return station
}

/** What is known of a night at once. */
type Known = Omit<FieldGround, 'beside'> & { readonly marks: readonly Mark[] }
type InTime = ReturnType<typeof withinOf>
interface Asked {
  readonly known: Known
  readonly station: Station
  readonly query: string
  readonly inTime: InTime
}
type WorkedOut = Pick<FieldSubject, 'beside' | 'good' | 'checked' | 'standing'>

/** What is worked out, as far as it comes in time; all of it is asked for at once. */
async function workedOut(desk: Desk, { known, station, query, inTime }: Asked): Promise<WorkedOut> {
  const { night, tour, field, marks } = known
  const { id, telescope } = station
  const halfAt = lastHalfHour(night, field.at)
  const [beside, good, check] = await Promise.all([
    besideOf(desk, known, inTime),
    telescope && inTime(desk.goodNow(night.id, id, field.at, foundKeys(desk, query))),
    telescope && tour ? inTime(desk.checks.at(night.id, halfAt)) : null,
  ])
  return { beside, good, checked: { at: halfAt, check }, standing: standing(marks) }
}

/** What the stations that are no telescope show; [] where that does not come in time. */
const besideOf = async (desk: Desk, { night, tour }: Known, inTime: InTime): Promise<FieldGround['beside']> =>
  (await inTime(desk.beside(night.id, tour))) ?? []

const foundKeys = (desk: Desk, query: string): string[] =>
  (query === '' ? [] : telescopeHits(desk, query)).slice(0, FOUND).map(({ key }) => key)

/** The check that holds now: of the half hour that the site's clocks have passed last, from the opening on. */
function lastHalfHour(night: Night, at: Date): Date {
  const { opensAt } = nightHours(night)
  const halves = quarterHours(night).filter((quarter) => /:[03]0$/.test(wallClock(quarter, night.site.zone)))
  return halves.findLast((half) => half <= at) ?? opensAt
}
