import type { TSchema } from 'typebox'
import { Compile } from 'typebox/compile'
import type { Problem } from '../errors.ts'
import { closed } from './closed-schema.ts'
import { FILE_VERSION, MOST_FILE_LETTERS, NIGHT_FORMAT, NightFile, THINGS_FORMAT, ThingsFile } from './night-file.ts'
import { schemaProblems } from './schema-problems.ts'

type Read<File> = { readonly file: File } | { readonly problems: readonly Problem[] }

const MOST_DEEP = 16
const OUTLAWED = new Set(['__proto__', 'constructor', 'prototype'])
const BAD_LETTER = /\p{Cs}|(?![\n\r\t])\p{Cc}/u

const wrong = (key: string, field = '', values: Problem['values'] = {}): { readonly problems: readonly Problem[] } => ({
  problems: [{ field, key, values }],
})

/** A reader of files of one format: what stands in the text, or the place that is wrong. */
function reader<Schema extends TSchema>(format: string, schema: Schema) {
  const strict = closed(schema)
  const check = Compile(strict)
  return (text: string): Read<ReturnType<typeof check.Parse>> => {
    const parsed = parsedOf(text)
    if ('problems' in parsed) return parsed
    const { value } = parsed
    if (!isRecord(value) || value.format !== format) return wrong('carry.other-file')
    if (typeof value.version === 'number' && value.version > FILE_VERSION) {
      return wrong('carry.newer', 'version', { version: value.version, known: FILE_VERSION })
    }
    const place = badPlace(value)
    if (place !== undefined) return wrong('carry.bad-text', place)
    return check.Check(value) ? { file: value } : { problems: schemaProblems(check.Errors(value), strict) }
  }
}

/** A night from the text of its file. */
export const readNightFile = reader(NIGHT_FORMAT, NightFile)
/** Things and words of a host's own from the text of their file. */
export const readThingsFile = reader(THINGS_FORMAT, ThingsFile)

function parsedOf(text: string): { readonly value: unknown } | { readonly problems: readonly Problem[] } {
  if (text.trim() === '') return wrong('carry.empty')
  if (text.length > MOST_FILE_LETTERS) return wrong('carry.large', '', { maximum: MOST_FILE_LETTERS / 1024 / 1024 })
  try {
    return { value: JSON.parse(text.replace(/^\uFEFF/, '')) }
  } catch {
    return wrong('carry.damaged')
  }
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** The first place with a name or letters that no file of ours holds, or that lies too deep. */
function badPlace(root: unknown): string | undefined {
  const left: [value: unknown, path: string, depth: number][] = [[root, '', 0]]
  for (let next = left.pop(); next !== undefined; next = left.pop()) {
    const [value, path, depth] = next
    if (typeof value === 'string' && BAD_LETTER.test(value)) return path
    if (typeof value !== 'object' || value === null) continue
    if (depth > MOST_DEEP) return path
    for (const [name, part] of Object.entries(value)) {
      const at = path === '' ? name : `${path}.${name}`
      if (OUTLAWED.has(name) || BAD_LETTER.test(name)) return at.slice(0, 120)
      left.push([part, at, depth + 1])
    }
  }
  return undefined
}
