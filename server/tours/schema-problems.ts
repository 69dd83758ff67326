import type { MessageValues, Problem } from '../errors.ts'

/** An error as TypeBox and Ajv write it. `schemaPath` lets the message name both ends of a range. */
export interface SchemaError {
  readonly keyword: string
  readonly instancePath: string
  readonly schemaPath?: string
  readonly params: unknown
}

/** Which of several errors of one field the host reads: the first kind of this list that is present. */
const KEYS: Readonly<Record<string, string>> = {
  minimum: 'problem.at-least',
  exclusiveMinimum: 'problem.at-least',
  maximum: 'problem.at-most',
  exclusiveMaximum: 'problem.at-most',
  minLength: 'problem.too-short',
  maxLength: 'problem.too-long',
  pattern: 'problem.pattern',
  format: 'problem.pattern',
  minItems: 'problem.too-few',
  maxItems: 'problem.too-many',
  required: 'problem.required',
  additionalProperties: 'problem.unknown-field',
  const: 'problem.choice',
  enum: 'problem.choice',
  type: 'problem.type',
  anyOf: 'problem.choice',
}
const ORDER = Object.keys(KEYS)

/**
 * The problems that schema errors stand for, one a field, the field as a path with dots (`tubes.0.apertureMm`). A value
 * out of range is `problem.range` with both limits when the schema is given and has both, else `problem.at-least` or `at-most`.
 */
export function schemaProblems(errors: readonly SchemaError[], schema?: unknown): Problem[] {
  const byField = new Map<string, SchemaError>()
  for (const error of errors.flatMap(onePerField)) {
    const field = pathOf(error)
    const kept = byField.get(field)
    if (kept === undefined || rank(error) < rank(kept)) byField.set(field, error)
  }
  return [...byField].map(([field, error]) => problemOf(field, error, schema))
}

const rank = ({ keyword }: SchemaError): number => {
  const place = ORDER.indexOf(keyword)
  return place < 0 ? ORDER.length : place
}

const MISSING = ['requiredProperties', 'missingProperty', 'additionalProperties', 'additionalProperty'] as const

/** TypeBox names all missing or unknown fields in one error, at the object; the host wants one at each field. */
function onePerField(error: SchemaError): SchemaError[] {
  const params = recordOf(error.params)
  const names = MISSING.flatMap((name) => params[name] ?? []).map(String)
  if (names.length === 0) return [error]
  return names.map((name) => ({ ...error, instancePath: `${error.instancePath}/${name}` }))
}

const pathOf = ({ instancePath }: SchemaError): string => instancePath.replace(/^\//, '').replaceAll('/', '.')

function problemOf(field: string, error: SchemaError, schema: unknown): Problem {
  const limits = limitsOf(error, schema)
  const both = limits.minimum !== undefined && limits.maximum !== undefined
  const key = KEYS[error.keyword] ?? 'problem.invalid'
  const isRange = key === 'problem.at-least' || key === 'problem.at-most'
  if (isRange && both) return { field, key: 'problem.range', values: limits }
  return { field, key, values: { ...limits, ...valuesOf(error) } }
}

function valuesOf({ keyword, params }: SchemaError): MessageValues {
  const { limit, type } = recordOf(params)
  if (typeof limit === 'number') return /^(exclusiveM|m)in/.test(keyword) ? { minimum: limit } : { maximum: limit }
  return typeof type === 'string' ? { type } : {}
}

function limitsOf({ schemaPath }: SchemaError, schema: unknown): { minimum?: number; maximum?: number } {
  if (schema === undefined || schemaPath === undefined) return {}
  const found = recordOf(schemaAt(schema, schemaPath))
  const minimum = found.minimum ?? found.exclusiveMinimum
  const maximum = found.maximum ?? found.exclusiveMaximum
  return { ...(typeof minimum === 'number' && { minimum }), ...(typeof maximum === 'number' && { maximum }) }
}

/** The part of a schema that a path such as `#/properties/a` names; the last step is left off when it names a keyword. */
function schemaAt(schema: unknown, path: string): unknown {
  let at = schema
  for (const name of path.split('/').slice(1)) {
    const next = recordOf(at)[name]
    if (typeof next !== 'object' || next === null) return at
    at = next
  }
  return at
}

const recordOf = (value: unknown): Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null ? Object.fromEntries(Object.entries(value)) : {}
