import type { InjectOptions } from 'fastify'
import type { RouteRole } from '../../server/web/roles.ts'
import { ACTS } from './acts.ts'
import { NIGHT_DRAFT, SITE_DRAFT, TELESCOPE_DRAFT } from './field-data.ts'
import { nastyText } from './nasty-words.ts'
import { HOST, HOST_COOKIE, LAN_HOST, PHONE } from './web.ts'

type Random = () => number
type Method = 'GET' | 'POST' | 'PUT' | 'DELETE' | 'HEAD' | 'PATCH' | 'OPTIONS'

const TYPES: readonly string[] = [
  'application/json',
  'application/json',
  'application/x-www-form-urlencoded',
  'application/x-www-form-urlencoded',
  'application/json; charset=utf-16',
  'application/json;charset="',
  'APPLICATION/JSON',
  'multipart/form-data; boundary=',
  'text/plain',
  'application/xml',
  ';',
  'x',
]
const PATHS: readonly string[] = [
  '/../../etc/passwd',
  '/..%2f..%2fetc%2fpasswd',
  '/%2e%2e/',
  '/.%00./',
  '//',
  '/;/',
  '/%',
  '/%ff%fe',
  '/%c0%ae',
  '/\\..\\',
  '/__proto__/',
  '/constructor/prototype',
  '/%0d%0aX: y',
  '/?',
  '/#',
]
const ODD: readonly unknown[] = [
  null,
  true,
  -1,
  0,
  -0,
  1e308,
  Number.MAX_SAFE_INTEGER + 2,
  0.1,
  '',
  ' ',
  '0',
  'NaN',
  '2026-13-45',
  '99:99',
  [],
  {},
  [[]],
  { length: 1 },
  { toString: 1 },
  'x'.repeat(5_000),
]
const BODIES: readonly unknown[] = [
  SITE_DRAFT,
  TELESCOPE_DRAFT,
  NIGHT_DRAFT,
  ...ACTS.filter(({ type }) => type === 'application/json').map(({ body }) => JSON.parse(body('key-of-a-seed'))),
  { steps: 10, seed: 1 },
  { secret: '1234', name: 'Ada', role: 'operator' },
  { pin: '1234' },
]

const pick = <Thing>(list: readonly Thing[], random: Random): Thing => {
  const found = list[Math.floor(random() * list.length)]
  if (found === undefined) throw new Error('There is nothing to pick from')
  return found
}

/** A request that no page of ours would send, and the route at which it aims. */
export interface OddRequest {
  readonly route: string
  readonly asked: InjectOptions
}

/** One to a route of the service or near one. */
export function oddRequest(routes: readonly RouteRole[], random: Random): OddRequest {
  const route = pick(routes, random)
  const method = (random() < 0.9 ? route.method : pick(['GET', 'POST', 'PUT', 'DELETE', 'PATCH'], random)) as Method
  const host = random() < 0.95 ? HOST : pick([LAN_HOST, '', 'x', 'localhost:99999', `${HOST},${HOST}`], random)
  const hasBody = method !== 'GET' && method !== 'HEAD' && random() < 0.95
  const type = pick(TYPES, random)
  const asked: InjectOptions = {
    method,
    url: oddAddress(route.url, random),
    remoteAddress: random() < 0.9 ? '127.0.0.1' : PHONE,
    headers: {
      host,
      origin: `http://${host}`,
      cookie:
        random() < 0.9 ? HOST_COOKIE : pick(['duskrow-session=', 'duskrow-session=%', '=;;=', '__proto__=1'], random),
      ...(hasBody && { 'content-type': type }),
      ...(random() < 0.1 && { 'accept-language': pick(['*', ';q=', 'xx-'.repeat(500), '__proto__'], random) }),
      ...(random() < 0.05 && { 'content-encoding': pick(['gzip', 'br', 'x'], random) }),
      ...(random() < 0.05 && { 'if-none-match': pick(['*', '"', 'W/"x"'], random) }),
    },
    ...(hasBody && { payload: /form/i.test(type) ? oddForm(random) : oddJson(random) }),
    payloadAsStream: true,
  }
  return { route: `${method} ${route.url}`, asked }
}

function oddAddress(url: string, random: Random): string {
  const filled = url.replaceAll(/:(\w+)/g, (_whole, name) => {
    if (random() < 0.7) return KNOWN[name] ?? 'night-1'
    return encodeURIComponent(wellFormed(nastyText(random, 120)))
  })
  const query = random() < 0.3 ? `?${oddForm(random).slice(0, 600)}` : ''
  return (random() < 0.05 ? filled + pick(PATHS, random) : filled) + query
}
const KNOWN: Readonly<Record<string, string>> = {
  nightId: 'night-1',
  stationId: 'station-1',
  key: 'm13',
  language: 'en',
  date: '2026-11-20',
  piece: 'cards',
}

/** Letters as an address can hold them: half a pair of two would throw where it is written, not where it is read. */
const wellFormed = (text: string): string => Buffer.from(text).toString()

const FIELDS = [
  'name',
  'title',
  'kind',
  'key',
  'stationId',
  'q',
  'at',
  'site',
  'month',
  'from',
  'act',
  'open',
  'items.0.text',
]

function oddForm(random: Random): string {
  const pairs = Array.from({ length: Math.floor(random() * 6) }, () => {
    const name = random() < 0.6 ? pick(FIELDS, random) : wellFormed(nastyText(random, 60))
    const value =
      random() < 0.5 ? JSON.stringify(pick(ODD, random)).replaceAll('"', '') : wellFormed(nastyText(random, 200))
    return `${encodeURIComponent(name)}${random() < 0.1 ? '[]' : ''}=${random() < 0.1 ? value : encodeURIComponent(value)}`
  })
  const text = pairs.join(random() < 0.95 ? '&' : ';')
  return random() < 0.05 ? `${text}&__proto__=x&__proto__[isHost]=1&constructor[prototype][isHost]=1` : text
}

function oddJson(random: Random): string {
  const kind = random()
  if (kind < 0.05) return pick(['', '{', '[1,', '"', 'nul', '\ufeff{}', '{"a":1}{"a":2}', '1e999', '\0'], random)
  if (kind < 0.1) return `${'{"a":'.repeat(2_000)}1${'}'.repeat(2_000)}`
  if (kind < 0.15) return pick(POISON, random)
  const text = JSON.stringify(mutated(pick(BODIES, random), random))
  return random() < 0.05 ? text.slice(0, Math.floor(random() * text.length)) : text
}
const POISON = [
  '{"__proto__":{"isHost":true}}',
  '{"marks":[{"__proto__":{"isHost":true}}]}',
  '{"constructor":{"prototype":{"isHost":true}}}',
  '{"\\u005f_proto__":{"isHost":true}}',
  '{"settings":{"__proto__":{"isHost":true}}}',
]

/** The value with one of its parts changed, now and then several. */
function mutated(value: unknown, random: Random): unknown {
  if (!(value instanceof Object) || random() < 0.1) return random() < 0.5 ? pick(ODD, random) : nastyText(random, 200)
  const names = Object.keys(value)
  const changed: unknown = Array.isArray(value) ? [...value] : { ...value }
  const name = names[Math.floor(random() * names.length)] ?? 'x'
  const way = random()
  if (way < 0.15) Reflect.deleteProperty(Object(changed), name)
  else if (way < 0.25) Reflect.set(Object(changed), nastyText(random, 20), pick(ODD, random))
  else Reflect.set(Object(changed), name, mutated(Reflect.get(value, name), random))
  return random() < 0.3 ? mutated(changed, random) : changed
}
