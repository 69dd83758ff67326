import { Type } from 'typebox'
import type { Cause, LeaveBy, Remark, Setup, Spare, Stop } from '../server/tours/tour.ts'
import { fromJson } from './json.ts'

const RemarkJson = Type.Object({
  code: Type.String(),
  values: Type.Optional(Type.Record(Type.String(), Type.Union([Type.String(), Type.Number()]))),
})
const SetupJson = Type.Object({
  tubeId: Type.String(),
  eyepieceId: Type.String(),
  powerX: Type.Number(),
  trueFieldDeg: Type.Number(),
})
const CAUSES = ['skyline', 'low', 'high', 'faint', 'sun', 'closing', 'set'] as const satisfies readonly Cause['code'][]
const CauseJson = Type.Object({
  code: Type.Union(CAUSES.map((code) => Type.Literal(code))),
  name: Type.Optional(Type.String()),
})
const LeaveByJson = Type.Object({ at: Type.String(), cause: CauseJson })
const SpareJson = Type.Object({
  targetKey: Type.String(),
  stationId: Type.String(),
  setups: Type.Array(SetupJson),
  fromAt: Type.String(),
  untilAt: Type.String(),
  cause: CauseJson,
  chance: Type.Number(),
})

/** A stop as its row holds it: instants and lists as text. */
export interface StopRow extends Omit<Stop, 'setups' | 'startsAt' | 'endsAt' | 'leaveBy' | 'reasons'> {
  readonly setups: string
  readonly startsAt: string
  readonly endsAt: string
  readonly leaveBy: string | null
  readonly reasons: string
}

/** The row of a stop. */
export const stopRow = (stop: Stop): StopRow => ({
  ...stop,
  setups: JSON.stringify(stop.setups),
  startsAt: stop.startsAt.toISOString(),
  endsAt: stop.endsAt.toISOString(),
  leaveBy: stop.leaveBy && JSON.stringify(stop.leaveBy),
  reasons: JSON.stringify(stop.reasons),
})

/** The stop of a row. */
export const stopFrom = (row: StopRow): Stop => ({
  ...row,
  setups: fromJson(Type.Array(SetupJson), row.setups) satisfies Setup[],
  startsAt: new Date(row.startsAt),
  endsAt: new Date(row.endsAt),
  leaveBy: row.leaveBy === null ? null : leaveByFrom(row.leaveBy),
  reasons: noticesFrom(row.reasons),
})

function leaveByFrom(text: string): LeaveBy {
  const { at, cause } = fromJson(LeaveByJson, text)
  return { at: new Date(at), cause: causeOf(cause) }
}

/** Remarks from their JSON text. */
export const noticesFrom = (text: string): readonly Remark[] =>
  fromJson(Type.Array(RemarkJson), text).map(({ code, values }) => (values === undefined ? { code } : { code, values }))

/** Spares as JSON text. */
export const sparesJson = (spares: readonly Spare[]): string => JSON.stringify(spares)

/** Spares from their JSON text. */
export const sparesFrom = (text: string): readonly Spare[] =>
  fromJson(Type.Array(SpareJson), text).map((spare) => ({
    ...spare,
    fromAt: new Date(spare.fromAt),
    untilAt: new Date(spare.untilAt),
    cause: causeOf(spare.cause),
  }))

const causeOf = ({ code, name }: { code: Cause['code']; name?: string | undefined }): Cause =>
  name === undefined ? { code } : { code, name }
