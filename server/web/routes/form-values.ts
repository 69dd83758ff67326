import type { FastifyRequest } from 'fastify'
import { Fault, type Problem } from '../../errors.ts'

export type FormValues = Readonly<Record<string, string>>

/** The fields of a posted form; of a repeated name the last one counts. */
export function formValues({ body }: Pick<FastifyRequest, 'body'>): FormValues {
  if (typeof body !== 'object' || body === null) return {}
  const fields = Object.entries(body).map(([name, value]) => [name, Array.isArray(value) ? value.at(-1) : value])
  return Object.fromEntries(fields.filter(([, value]) => typeof value === 'string'))
}

/** The same values with those fields in their place that were sent blank, which a form is read without. */
export const withBlanks = (values: FormValues, names: readonly string[]): FormValues => ({
  ...Object.fromEntries(names.map((name) => [name, ''])),
  ...values,
})

/** A number as people type it, with a point or a comma; NaN when it is blank or no number. */
export function numberOf(text: string | undefined): number {
  const trimmed = (text ?? '').trim().replace(',', '.').replace('−', '-')
  return NUMBER.test(trimmed) ? Number(trimmed) : Number.NaN
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i

/** The rows of a form (`tubes.0.name`, `tubes.1.name` ...) in which something was filled in, numbered anew from 0. */
export function filledRows(
  values: FormValues,
  group: string,
  counts: (part: string, value: string) => boolean,
): FormValues[] {
  const rows = new Map<number, Record<string, string>>()
  for (const [name, value] of Object.entries(values)) {
    const [head, index, part] = name.split('.')
    if (head !== group || part === undefined || value.trim() === '') continue
    const row = rows.get(Number(index)) ?? {}
    row[part] = value.trim()
    rows.set(Number(index), row)
  }
  return [...rows]
    .sort(([a], [b]) => a - b)
    .map(([, row]) => row)
    .filter((row) => Object.entries(row).some(([part, value]) => counts(part, value)))
}

/** The values of a form with the rows of some groups written anew, so that their numbers fit the problems' fields. */
export function withRows(values: FormValues, groups: Readonly<Record<string, readonly FormValues[]>>): FormValues {
  const others = Object.entries(values).filter(([name]) => !Object.hasOwn(groups, name.replace(/\..*$/, '')))
  const rows = Object.entries(groups).flatMap(([group, list]) =>
    list.flatMap((row, index) => Object.entries(row).map(([part, value]) => [`${group}.${index}.${part}`, value])),
  )
  return Object.fromEntries([...others, ...rows])
}

/** How many rows of a group a form shows: what the form says of itself, at least `least`, at most `most`. */
export function rowCount(values: FormValues, name: string, least: number, most: number): number {
  const asked = Math.trunc(numberOf(values[name]))
  return Number.isNaN(asked) ? least : Math.min(most, Math.max(least, asked))
}

/** How a problem of a field for a clock time says how one is written. */
export const inClockWords =
  (clocks: readonly string[]) =>
  (problem: Problem): Problem =>
    problem.key === 'problem.pattern' && clocks.includes(problem.field)
      ? { field: problem.field, key: 'problem.go-clock' }
      : problem

/** Runs `keep`; a Fault that names fields comes back as their problems, anything else rises. */
export function kept<Result>(
  keep: () => Result,
): { readonly result: Result } | { readonly problems: readonly Problem[] } {
  try {
    return { result: keep() }
  } catch (error) {
    if (error instanceof Fault && error.code === 'invalid') return { problems: error.problems }
    throw error
  }
}

/** The same for what takes a while to keep. */
export async function keptLater<Result>(
  keep: () => Promise<Result>,
): Promise<{ readonly result: Result } | { readonly problems: readonly Problem[] }> {
  try {
    return { result: await keep() }
  } catch (error) {
    return kept((): Result => {
      throw error
    })
  }
}
