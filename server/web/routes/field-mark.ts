import type { FastifyRequest } from 'fastify'
import type { Problem } from '../../errors.ts'
import type { MarkDraft } from '../../tours/mark.ts'
import type { Words } from '../../words/words.ts'
import { localPath } from '../roles.ts'
import { type FormValues, formValues, numberOf } from './form-values.ts'

/** A mark as a form sends it, which the desk must still judge. */
type FormMark = Record<keyof MarkDraft, unknown>

const NUMBERS = ['people', 'seconds', 'adults', 'children', 'minutes']

/** The mark of a form of the field's pages: what is no part of its frame is what it carries. */
export function fieldMark(request: Pick<FastifyRequest, 'body'>): FormMark {
  const { key = '', kind = '', stationId = null, back: _whereTo, shut: _several, ...told } = formValues(request)
  const carried = Object.entries(told).map(([name, text]) => [name, NUMBERS.includes(name) ? numberOf(text) : text])
  return { key, kind, stationId, payload: { ...unsaid(kind, request), ...Object.fromEntries(carried) }, secondsAgo: 0 }
}

/** Where to go back to from a form of the field's pages: a path of ours, else the station's page or the row. */
export function wayBack(request: Pick<FastifyRequest, 'body'>, nightId: string): string {
  const { back, stationId }: FormValues = formValues(request)
  if (back !== undefined) return localPath(back)
  return stationId === undefined ? `/field/${nightId}` : `/field/${nightId}/${encodeURIComponent(stationId)}`
}

/** What a form means by leaving a field blank: no clouds, no end to them, nobody. */
function unsaid(kind: string, { body }: Pick<FastifyRequest, 'body'>): object {
  if (kind === 'counted') return { adults: 0, children: 0 }
  return kind === 'clouds' ? { minutes: null, shut: listOf(body, 'shut') } : {}
}

/** All values of a field that a form may hold several times. */
const listOf = (body: unknown, name: string): unknown[] =>
  Object.entries(body ?? {}).flatMap(([field, value]) => (field === name ? value : []))

/** What the pages call the numbers that are typed into their forms. */
const LABELS: Readonly<Record<string, string>> = {
  people: 'queue.how-many',
  adults: 'page.visitors-adults',
  children: 'page.visitors-children',
}

/** A problem of a mark under the label of its field; what nobody types has none. */
export const atLabel =
  (words: Words) =>
  (problem: Problem): Problem => {
    const label = LABELS[problem.field.split('.').at(-1) ?? '']
    return { ...problem, field: label === undefined ? '' : words.say(label) }
  }
