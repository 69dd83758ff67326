import { parse } from 'node:querystring'
import formbody from '@fastify/formbody'
import type { FastifyInstance } from 'fastify'
import type { TSchema } from 'typebox'
import { Compile } from 'typebox/compile'
import { Value } from 'typebox/value'
import { invalid } from '../errors.ts'
import { closed } from '../tours/closed-schema.ts'
import { schemaProblems } from '../tours/schema-problems.ts'

/** The largest body of an ordinary request, in bytes. */
export const BODY_LIMIT = 16 * 1024
/** For a whole site or night as JSON, in bytes. */
export const DRAFT_LIMIT = 64 * 1024

/** Takes JSON and forms, nothing else; a blank field of a form counts as left out. */
export function takeBodies(app: FastifyInstance): void {
  app.removeAllContentTypeParsers()
  app.addContentTypeParser('application/json', { parseAs: 'string' }, app.getDefaultJsonParser('error', 'error'))
  app.register(formbody, { parser: filledFields })
}

/** The fields of a form that were filled in with something to be seen; a repeated name becomes a list. */
export function filledFields(text: string): Record<string, string | string[]> {
  const fields: Record<string, string | string[]> = Object.create(null)
  for (const [name, value = ''] of Object.entries(parse(text))) {
    const filled = Array.isArray(value) ? value.map(seen).filter((part) => part !== '') : seen(value)
    if (filled.length > 0) fields[name] = filled
  }
  return fields
}

/** Line ends of other writing than ours. */
const ENDS = /[\v\f\u0085\u2028\u2029]/g
/**
 * What comes along when people paste and what no page can show: control signs but tabs and line ends, blanks of no width,
 * and signs that turn round the writing of all that follows. Those that join or part letters stay.
 */
const UNSEEN = /[^\P{Cc}\t\n\r]|[\u200b\u202a-\u202e\u2060\u2066-\u2069\ufeff]/gu
const seen = (text: string): string => text.replace(ENDS, ' ').replace(UNSEEN, '')

/**
 * Checks requests as their schemas say: JSON as it stands and without unknown fields, the text of addresses turned into
 * numbers first. What is wrong comes as one Fault that names the fields.
 */
export function checkRequests(app: FastifyInstance): void {
  app.setValidatorCompiler<TSchema>(({ schema, httpPart }) => {
    const isBody = httpPart === 'body'
    const checked = isBody ? closed(schema) : schema
    const check = Compile(checked)
    return (sent: unknown) => {
      const value = isBody ? sent : Value.Convert(checked, sent)
      return check.Check(value) ? { value } : { error: invalid(schemaProblems(check.Errors(value), checked)) }
    }
  })
}
