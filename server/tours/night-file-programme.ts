import { type Static, Type } from 'typebox'
import type { Cause, Remark, Tour } from './tour.ts'

export const FileId = Type.String({ pattern: '^[A-Za-z0-9_-]{1,40}$' })
/** An instant in UTC with milliseconds. */
export const FileInstant = Type.String({ pattern: '^\\d{4}-[01]\\d-[0-3]\\dT[0-2]\\d:[0-5]\\d:[0-5]\\d\\.\\d{3}Z$' })
export const FileKey = Type.String({ minLength: 1, maxLength: 60 })

const share = Type.Number({ minimum: 0, maximum: 1 })
const FileRemark = Type.Object({
  code: Type.String({ pattern: '^[a-z][A-Za-z0-9-]{0,40}\\.[A-Za-z0-9.-]{1,60}$' }),
  values: Type.Optional(
    Type.Record(Type.String({ maxLength: 40 }), Type.Union([Type.String({ maxLength: 200 }), Type.Number()])),
  ),
})
const FileCause = Type.Object({
  code: Type.Enum(['skyline', 'low', 'high', 'faint', 'sun', 'closing', 'set']),
  name: Type.Optional(Type.String({ maxLength: 80 })),
})
const FileSetup = Type.Object({
  tubeId: FileId,
  /** An eyepiece, or `<eyepiece>*<factor>` behind a Barlow or reducer. */
  eyepieceId: Type.String({ pattern: '^[A-Za-z0-9_-]{1,40}(\\*[A-Za-z0-9_-]{1,40})?$' }),
  powerX: Type.Number(),
  trueFieldDeg: Type.Number(),
})
const Setups = Type.Array(FileSetup, { maxItems: 4 })

/** A version of the programme with its stops. `bound` is its best proven limit; the steps of the proof are left out. */
export const FileProgramme = Type.Object({
  id: FileId,
  version: Type.Integer({ minimum: 1, maximum: 100_000 }),
  madeAt: FileInstant,
  why: Type.Enum(['first', 'asked', 'changed']),
  seed: Type.Integer(),
  steps: Type.Integer({ minimum: 0 }),
  inputsDigest: Type.String({ maxLength: 80 }),
  /** The `seq` of the file's mark after which it held; null while it waits for the host. */
  tookOverAtSeq: Type.Union([Type.Integer({ minimum: 0 }), Type.Null()]),
  value: Type.Number(),
  bound: Type.Union([Type.Number(), Type.Null()]),
  seconds: Type.Number({ minimum: 0 }),
  stops: Type.Array(
    Type.Object({
      stationId: FileId,
      targetKey: FileKey,
      aim: Type.Enum(['whole', 'close']),
      setups: Setups,
      startsAt: FileInstant,
      endsAt: FileInstant,
      leaveBy: Type.Union([Type.Object({ at: FileInstant, cause: FileCause }), Type.Null()]),
      chance: share,
      view: share,
      looks: Type.Number({ minimum: 0 }),
      reasons: Type.Array(FileRemark, { maxItems: 40 }),
    }),
    { maxItems: 1000 },
  ),
  spares: Type.Array(
    Type.Object({
      targetKey: FileKey,
      stationId: FileId,
      setups: Setups,
      fromAt: FileInstant,
      untilAt: FileInstant,
      cause: FileCause,
      chance: share,
    }),
    { maxItems: 500 },
  ),
  notices: Type.Array(FileRemark, { maxItems: 200 }),
})
export type FileProgramme = Static<typeof FileProgramme>

/** A programme as the file holds it. */
export function programmeInFile({ nightId: _nightId, ...tour }: Tour): FileProgramme {
  return {
    ...tour,
    madeAt: tour.madeAt.toISOString(),
    stops: tour.stops.map((stop) => ({
      ...stop,
      setups: [...stop.setups],
      startsAt: stop.startsAt.toISOString(),
      endsAt: stop.endsAt.toISOString(),
      leaveBy: stop.leaveBy && { at: stop.leaveBy.at.toISOString(), cause: stop.leaveBy.cause },
      reasons: stop.reasons.map(remarkInFile),
    })),
    spares: tour.spares.map((spare) => ({
      ...spare,
      setups: [...spare.setups],
      fromAt: spare.fromAt.toISOString(),
      untilAt: spare.untilAt.toISOString(),
    })),
    notices: tour.notices.map(remarkInFile),
  }
}

/** The programme that a file holds. */
export function programmeFromFile(file: FileProgramme, nightId: string): Tour {
  return {
    ...file,
    nightId,
    madeAt: new Date(file.madeAt),
    stops: file.stops.map((stop) => ({
      ...stop,
      startsAt: new Date(stop.startsAt),
      endsAt: new Date(stop.endsAt),
      leaveBy: stop.leaveBy && { at: new Date(stop.leaveBy.at), cause: causeOf(stop.leaveBy.cause) },
      reasons: stop.reasons.map(remarkOf),
    })),
    spares: file.spares.map((spare) => ({
      ...spare,
      fromAt: new Date(spare.fromAt),
      untilAt: new Date(spare.untilAt),
      cause: causeOf(spare.cause),
    })),
    notices: file.notices.map(remarkOf),
  }
}

const remarkInFile = ({ code, values }: Remark): Static<typeof FileRemark> =>
  values === undefined ? { code } : { code, values: { ...values } }
const remarkOf = ({ code, values }: Static<typeof FileRemark>): Remark =>
  values === undefined ? { code } : { code, values }
const causeOf = ({ code, name }: Static<typeof FileCause>): Cause => (name === undefined ? { code } : { code, name })
