import { parse } from 'csv-parse/sync'
import { type HtmlTag, plainValue, tagsOf } from './html-elements.ts'
import type { Told } from './typed-service.ts'

/** Notes what elements and attributes a page of ours has. */
export function learn({ type, body }: Told, known: Set<string>): void {
  if (!type.startsWith('text/html')) return
  for (const { name, attributes } of tagsOf(body))
    for (const attribute of ['', ...attributes.keys()]) known.add(`${name} ${attribute}`)
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: browsers skip them
const LOOSE_ADDRESS = /^[\s\0-\x1f]*(javascript|vbscript|data:text|\/\/)/i
const FORMULA = /^[=+\-@\t\r](?!\d+(\.\d+)?$)/

/** What no answer may hold, whatever was typed. */
export function strangeIn({ url, status, type, body }: Told, known: ReadonlySet<string>): readonly string[] {
  const where = (what: string) => `${url.slice(0, 80)}: ${what}`
  // Whoever is signed out sees little of what was typed.
  if (status >= 500 || status === 401) return [where(`status ${status}`)]
  if (type.startsWith('application/json')) return isJson(body) ? [] : [where('no JSON')]
  if (type.startsWith('text/csv')) return formulasIn(body).map((cell) => where(`formula ${cell}`))
  if (!type.startsWith('text/html')) return []
  return tagsOf(body).flatMap(({ name, attributes }) => [
    ...['', ...attributes.keys()].filter((key) => !known.has(`${name} ${key}`)).map((key) => where(`<${name} ${key}>`)),
    ...[...attributes]
      .filter(([, value]) => LOOSE_ADDRESS.test(plainValue(value)))
      .filter(([key]) => /href|src|action/.test(key))
      .map(([key, value]) => where(`${key}=${value}`)),
  ])
}

function isJson(body: string): boolean {
  try {
    return JSON.parse(body) !== undefined
  } catch {
    return false
  }
}

const formulasIn = (body: string): readonly string[] =>
  parse(body, { relax_column_count: true }).flatMap((line: string[]) => line.filter((cell) => FORMULA.test(cell)))

/** Built of what was done before and of how much fits on a sheet, so that only what could do harm is compared there. */
const GROWS = /\/(programme|go|thin-cloud|file|line)$|\/print\/|\/(tonight|field)\/|\/api\/|\/align$|\/set-up$|\/walks$/
/** True for a page that is built of more than its words. */
export const isGrowing = (url: string): boolean => GROWS.test(url)
const HARMFUL = new Set(['script', 'style', 'link', 'meta', 'base', 'img', 'iframe', 'object', 'embed', 'title'])

/** Refused for what is in a form or for how long it is: a nasty letter is sent as up to nine plain ones. */
const REFUSED = new Set([413, 422])

/** Where two answers, of nasty and of plain words, are not built alike. */
export function apart(told: Told, plainly: Told | undefined): readonly string[] {
  // Which fields are complained of hangs on what was typed.
  if (plainly && REFUSED.has(told.status) && REFUSED.has(plainly.status)) return []
  if (!plainly || told.status !== plainly.status)
    return [`${told.url.slice(0, 80)}: ${told.status}, not ${plainly?.status}`]
  const [one, other] = [builtOf(told), builtOf(plainly)]
  const length = Math.max(one.length, other.length)
  const place = Array.from({ length }, (_, at) => at).find((at) => one[at] !== other[at])
  if (place === undefined) return []
  return [
    `${told.url.slice(0, 80)}: ${one.slice(place, place + 3).join(' ')}, not ${other.slice(place, place + 3).join(' ')}`,
  ]
}

function builtOf({ url, type, body }: Told): readonly string[] {
  if (type.startsWith('text/csv'))
    return parse(body, { relax_column_count: true }).map((line: string[]) => `${line.length}`)
  if (type.startsWith('application/json')) return isGrowing(url) ? [] : keysOf(JSON.parse(body))
  if (!type.startsWith('text/html')) return []
  return outsideDrawings(tagsOf(body))
    .filter(({ name }) => !isGrowing(url) || HARMFUL.has(name))
    .map(({ name, isEnd, attributes }) => `${isEnd ? '/' : ''}${name}[${[...attributes.keys()].join()}]`)
}

/** Without the parts of drawings that do no harm: which of them are drawn hangs on how wide the letters are. */
function outsideDrawings(tags: readonly HtmlTag[]): readonly HtmlTag[] {
  let depth = 0
  return tags.filter(({ name, isEnd }) => {
    if (name === 'svg') depth += isEnd ? -1 : 1
    return depth === 0 || (HARMFUL.has(name) && name !== 'title')
  })
}

const keysOf = (value: unknown): readonly string[] =>
  value instanceof Object ? Object.entries(value).flatMap(([key, each]) => [key, ...keysOf(each)]) : [typeof value]
