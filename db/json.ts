import type { Static, TSchema } from 'typebox'
import { Value } from 'typebox/value'

/** The value kept as JSON text in a row, checked against its schema; throws when it does not fit. */
export const fromJson = <Schema extends TSchema>(schema: Schema, text: string): Static<Schema> =>
  Value.Parse(schema, JSON.parse(text))
