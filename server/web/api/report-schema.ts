import { Type } from 'typebox'

const At = Type.String({ description: 'UTC, ISO 8601, with Z' })
const Count = Type.Integer({ minimum: 0 })
const orNull = <Schema extends Parameters<typeof Type.Array>[0]>(schema: Schema) => Type.Union([schema, Type.Null()])
const Heads = Type.Object({ adults: Count, children: Count })
const Span = Type.Object({ fromAt: At, toAt: At })

const Showing = Type.Object({
  stationId: Type.String(),
  stationName: Type.String(),
  targetKey: Type.String(),
  targetName: Type.String(),
  fromAt: At,
  toAt: At,
  told: Type.Union([Type.Literal('mark'), Type.Literal('plan')], {
    description: 'mark: somebody there said so; plan: nobody said otherwise',
  }),
  troubleMin: Type.Number(),
  looks: Count,
  looksBy: orNull(
    Type.Union([Type.Literal('timed'), Type.Literal('planned'), Type.Literal('usual')], {
      description:
        'timed: people were timed at that eyepiece; planned: as the programme gave; usual: the night’s own time a look',
    }),
  ),
  timedSec: orNull(Type.Number()),
})

const Wait = Type.Object({
  stationId: Type.String(),
  inLine: Count,
  waitMin: Type.Number(),
  isMeasured: Type.Boolean(),
})

/** A number as reckoned and, beside it, as the host says it. */
const Told = Type.Object({ reckoned: orNull(Type.Integer()), host: orNull(Type.Integer()) })

/** The report of a night as JSON; every sum of looks is exact, and looks are not people. */
export const ReportAnswer = Type.Object({
  schema: Type.Literal('duskrow-report-1'),
  nightId: Type.String(),
  title: Type.String(),
  date: Type.String(),
  zone: Type.String(),
  place: Type.String(),
  state: Type.String(),
  madeAt: At,
  isOver: Type.Boolean(),
  closedAt: orNull(At),
  lacks: Type.Array(Type.String()),
  planned: Span,
  ran: Type.Object({ reckoned: orNull(Span), host: orNull(Span) }),
  decision: orNull(Type.Object({ state: Type.String(), proposed: Type.String(), decidedAt: At })),
  stations: Type.Array(
    Type.Object({
      stationId: Type.String(),
      name: Type.String(),
      kind: Type.String(),
      telescope: orNull(Type.String()),
      operator: orNull(Type.String({ description: 'For the host alone' })),
      looks: Count,
    }),
  ),
  acted: orNull(Type.Array(Type.Object({ by: Type.String(), acts: Count }))),
  numbers: Type.Record(Type.String(), Told, {
    description: 'adults, children, visitors, adults-out, children-out, peak, looks, estimate',
  }),
  people: Type.Object({
    isCounted: Type.Boolean(),
    came: Heads,
    left: Heads,
    stayed: Heads,
    peak: orNull(Type.Object({ adults: Count, children: Count, people: Count, at: At })),
  }),
  estimate: orNull(
    Type.Object({
      looks: Count,
      minutes: Type.Number(),
      meanPeople: Type.Number(),
      stayMin: Type.Number(),
      looksPerVisitor: Type.Number(),
      visitors: Count,
      message: Type.String(),
    }),
  ),
  looks: Count,
  showings: Type.Array(Showing),
  looksByTarget: Type.Array(Type.Object({ targetKey: Type.String(), targetName: Type.String(), looks: Count })),
  halfHours: Type.Array(
    Type.Object({
      at: At,
      atWall: Type.String(),
      adults: Count,
      children: Count,
      looks: Count,
      waits: Type.Array(Wait),
    }),
  ),
  seen: Type.Array(
    Type.Object({ targetKey: Type.String(), targetName: Type.String(), they: Count, half: Count, not: Count }),
  ),
  skipped: Type.Array(
    Type.Object({
      stationId: orNull(Type.String()),
      targetKey: Type.String(),
      targetName: Type.String(),
      why: Type.String(),
      at: At,
    }),
  ),
  clouds: Type.Array(Type.Object({ at: At, shut: Type.Array(Type.String()), minutes: orNull(Type.Number()) })),
  weather: Type.Array(Type.Object({ kind: Type.String(), value: Type.Number(), enteredAt: At })),
  volunteers: Type.Object({
    stations: Count,
    extraHelpers: Count,
    openMin: Count,
    setUpMin: Count,
    totalMin: Count,
  }),
  words: Type.Object({
    sky: Type.String(),
    weather: Type.String(),
    helpers: orNull(Type.String({ description: 'For the host alone' })),
    improve: orNull(Type.String({ description: 'For the host alone' })),
  }),
})
