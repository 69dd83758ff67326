import type { Static, TSchema } from 'typebox'
import { Compile, type Validator } from 'typebox/compile'
import type { Problem } from '../errors.ts'
import { closed } from './closed-schema.ts'
import { MARK_KINDS, MARK_PAYLOADS, type Mark, type MarkKind } from './mark.ts'
import { schemaProblems } from './schema-problems.ts'

export type Payload<Kind extends MarkKind> = Static<(typeof MARK_PAYLOADS)[Kind]>

// Compiled, since the state of a busy night reads every act of it again and again.
const compiled = (schemaOf: (kind: MarkKind) => TSchema): ReadonlyMap<MarkKind, Validator> =>
  new Map(MARK_KINDS.map((kind) => [kind, Compile(schemaOf(kind))]))

// Written strictly and read openly: a field that an older program kept does no harm.
const OPEN = compiled((kind) => MARK_PAYLOADS[kind])
const STRICT = compiled((kind) => closed(MARK_PAYLOADS[kind]))

/** What a mark of this kind carries; null for one of another kind and for one that cannot be read. */
export function payloadOf<Kind extends MarkKind>(
  asked: Kind,
  { kind, payload }: Pick<Mark, 'kind' | 'payload'>,
): Payload<Kind> | null {
  return kind === asked && isPayload(asked, payload) ? payload : null
}

const isPayload = <Kind extends MarkKind>(kind: Kind, payload: unknown): payload is Payload<Kind> =>
  OPEN.get(kind)?.Check(payload) === true

/** What is wrong with a payload that a new mark of this kind is to carry; [] when it can be kept. */
export function payloadProblems(kind: MarkKind, payload: unknown): Problem[] {
  const strict = STRICT.get(kind)
  return strict === undefined || strict.Check(payload) ? [] : schemaProblems(strict.Errors(payload), strict.Type())
}
