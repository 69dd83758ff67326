import type { MessageValues, Problem } from '../errors.ts'

/** An error as TypeBox and Ajv write it. `schemaPath` lets the message name both ends of a range. */
interface SchemaError {
  readonly keyword: string
  readonly instancePath: string
  readonly schemaPath?: string
  readonly params: unknown
}

/** Which of several errors of one field the host reads: the first kind of this list that is present. */
const KEYS: Readonly<Record<string, string>> = {
  minimum: 'problem.at-least',
  exclusiveMinimum: 'problem.more-than',
  maximum: 'problem.at-most',
  exclusiveMaximum: 'problem.less-than',
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
  const { least, most, ...limits } = limitsOf(error, schema)
  const isRange = LIMITS.includes(error.keyword)
  if (isRange && least !== null && most !== null) return { field, key: RANGE_KEYS[`${least} ${most}`], values: limits }
  return { field, key: keyOf(error), values: { ...limits, ...valuesOf(error) } }
}

const LIMITS = ['minimum', 'exclusiveMinimum', 'maximum', 'exclusiveMaximum']
const RANGE_KEYS = {
  'in in': 'problem.range',
  'out in': 'problem.range-above',
  'in out': 'problem.range-below',
  'out out': 'problem.range-between',
} as const

/** The kind of value that is expected names the message, but for a number, which most fields want. */
function keyOf({ keyword, params }: SchemaError): string {
  const { type } = recordOf(params)
  const isNamed = keyword === 'type' && typeof type === 'string' && NAMED_TYPES.includes(type)
  return isNamed ? `problem.type-${type}` : (KEYS[keyword] ?? 'problem.invalid')
}

const NAMED_TYPES = ['string', 'boolean', 'array', 'object', 'integer']

function valuesOf({ keyword, params }: SchemaError): MessageValues {
  const { limit, type } = recordOf(params)
  if (typeof limit === 'number') return /^(exclusiveM|m)in/.test(keyword) ? { minimum: limit } : { maximum: limit }
  return typeof type === 'string' ? { type } : {}
}

type Side = 'in' | 'out' | null

interface Limits {
  readonly minimum?: number
  readonly maximum?: number
  /** Whether the limit itself is in or out; null without one. */
  readonly least: Side
  readonly most: Side
}

function limitsOf({ schemaPath }: SchemaError, schema: unknown): Limits {
  if (schema === undefined || schemaPath === undefined) return { least: null, most: null }
  const found = recordOf(schemaAt(schema, schemaPath))
  const [minimum, maximum] = [found.minimum ?? found.exclusiveMinimum, found.maximum ?? found.exclusiveMaximum]
  return {
    ...(typeof minimum === 'number' && { minimum }),
    ...(typeof maximum === 'number' && { maximum }),
    least: typeof minimum !== 'number' ? null : found.minimum === undefined ? 'out' : 'in',
    most: typeof maximum !== 'number' ? null : found.maximum === undefined ? 'out' : 'in',
  }
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
