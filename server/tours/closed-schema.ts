import type { TSchema } from 'typebox'

/** The schema with every object in it closed to fields that it does not name. */
export function closed<Schema extends TSchema>(schema: Schema): Schema
export function closed(schema: TSchema): TSchema {
  const copy = Object.fromEntries(Object.entries(schema).map(([name, value]) => [name, closedWithin(value)]))
  const isOpen = copy.type === 'object' && 'properties' in copy && !('additionalProperties' in copy)
  return isOpen ? { ...copy, additionalProperties: false } : copy
}

function closedWithin(part: unknown): unknown {
  if (Array.isArray(part)) return part.map(closedWithin)
  return part instanceof Object ? closed(part) : part
}
