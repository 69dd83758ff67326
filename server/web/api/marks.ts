import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import { Compile } from 'typebox/compile'
import { inside } from '../../desk/mark-problems.ts'
import { invalid, type Problem } from '../../errors.ts'
import { MARK_KINDS, type Mark, MarkDraft } from '../../tours/mark.ts'
import { DRAFT_LIMIT } from '../bodies.ts'
import { markPace } from '../limits.ts'
import { oneCommit } from '../one-commit.ts'
import { actorOf } from '../roles.ts'
import { kept } from '../routes/form-values.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams } from './schemas.ts'

const MOST_MARKS = 100
const MarksBody = Type.Object({ marks: Type.Array(MarkDraft, { minItems: 1, maxItems: MOST_MARKS }) })
/** What the list must be for each of its marks to be judged by itself. */
const markList = Compile(
  Type.Object(
    { marks: Type.Array(Type.Unknown(), { minItems: 1, maxItems: MOST_MARKS }) },
    { additionalProperties: false },
  ),
)
const SinceQuery = Type.Object({ since: Type.Optional(Type.Integer({ minimum: 0 })) })

const Instant = Type.String({ format: 'date-time' })
const KeptMark = Type.Object({
  seq: Type.Integer({ description: 'The order in which the laptop took the acts' }),
  key: Type.String(),
  nightId: Type.String(),
  stationId: Type.Union([Type.String(), Type.Null()]),
  kind: Type.String({ enum: [...MARK_KINDS] }),
  payload: Type.Record(Type.String(), Type.Unknown()),
  by: Type.String(),
  receivedAt: Instant,
  happenedAt: Instant,
})
const ToldProblem = Type.Object({ field: Type.String(), code: Type.String(), message: Type.String() })
const RefusedMark = Type.Object({
  key: Type.Union([Type.String(), Type.Null()], { description: 'null where none could be read' }),
  problems: Type.Array(ToldProblem),
})
const Recorded = Type.Object(
  {
    kept: Type.Unsafe<readonly Mark[]>(
      Type.Array(KeptMark, { description: 'On the disk, now or since an earlier sending of the same act' }),
    ),
    refused: Type.Array(RefusedMark, { description: 'Never to be kept: do not send them again' }),
    version: Type.String({ description: 'Epoch and number of the newest act of the night' }),
    zone: Type.String(),
  },
  { description: 'At least one act is kept; each is told of by its key' },
)
const NoneKept = Type.Object(
  { error: Type.Object({ code: Type.String(), message: Type.String(), problems: Type.Array(ToldProblem) }) },
  { description: 'No act could be kept; the fields begin with the place of the act: marks.0.payload.targetKey' },
)

export const markRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, limits, whoOf, wordsFor }) => {
  const inOneCommit = oneCommit(desk.marks)

  app.get(
    '/nights/:id/marks',
    {
      config: { role: 'operator' },
      schema: { summary: 'The acts of a night after a number', params: IdParams, querystring: SinceQuery },
    },
    async ({ params, query: { since = 0 } }) => {
      const { id } = params
      const zone = desk.nights.zoneOf(id)
      return { marks: desk.marks.since(id, since), version: desk.marks.version(id), zone }
    },
  )

  app.post(
    '/nights/:id/marks',
    {
      config: { role: 'operator', rateLimit: markPace(limits) },
      bodyLimit: DRAFT_LIMIT,
      attachValidation: true,
      schema: {
        summary: 'Keep acts, each once by its key and each by itself; what is not told of may be sent again',
        params: IdParams,
        body: MarksBody,
        response: { 200: Recorded, 422: NoneKept },
      },
    },
    async (request) => {
      const { id } = request.params
      const zone = desk.nights.zoneOf(id)
      const body: unknown = request.body
      if (!markList.Check(body)) throw request.validationError ?? invalid([])
      const { name, role } = actorOf(whoOf(request))
      const recorded = await inOneCommit(() => kept(() => desk.marks.record(id, body.marks, name, role)))
      if ('problems' in recorded) throw invalid(recorded.problems.map((problem) => inside('marks', problem)))
      const words = wordsFor(request)
      const told = ({ field, key, values }: Problem) => ({ field, code: key, message: words.say(key, values) })
      const refused = recorded.result.refused.map(({ key, problems }) => ({ key, problems: problems.map(told) }))
      return { kept: recorded.result.kept, refused, version: desk.marks.version(id), zone }
    },
  )
}
