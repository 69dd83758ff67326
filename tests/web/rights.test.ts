import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { SAFE_HEADERS } from '../../server/web/headers.ts'
import type { Role, RouteRole } from '../../server/web/roles.ts'
import { ASSETS } from '../support/assets.ts'
import { recordRow } from '../support/fault-rows.ts'
import { joinedDesk, OTHER, OWN } from '../support/joined-night.ts'
import { HOST, LAN_HOST, PHONE, type TestApp, testApp, WIDE } from '../support/web.ts'

type Rank = 'nobody' | 'operator' | 'helper' | 'host-phone' | 'host'
type Door = Awaited<ReturnType<typeof joinedDesk>>

/** What each rank may use, by the role that a route asks for: written down here once more, by hand. */
const MAY: Readonly<Record<Role, readonly Rank[]>> = {
  visitor: ['nobody', 'operator', 'helper', 'host-phone', 'host'],
  operator: ['operator', 'helper', 'host-phone', 'host'],
  helper: ['helper', 'host-phone', 'host'],
  'host-phone': ['host-phone', 'host'],
  host: ['host'],
}

/** Every route that is no GET and asks for less than the host at the laptop, by the role that it asks for. */
const CHANGES: Readonly<Record<Exclude<Role, 'host'>, readonly string[]>> = {
  // Ways in and out, and a question too long for an address.
  visitor: [
    'DELETE /api/session',
    'POST /api/join',
    'POST /api/session',
    'POST /api/sight',
    'POST /join',
    'POST /sign-in',
    'POST /sign-out',
  ],
  operator: [
    'POST /api/nights/:id/marks',
    'POST /field/:nightId/marks',
    'POST /field/:nightId/stand',
    'POST /nights/:id/checklists/ticks',
  ],
  helper: [],
  // The change of plan, which the host must make wherever the host stands.
  'host-phone': [
    'POST /api/nights/:id/tour',
    'POST /nights/:id/again',
    'POST /nights/:id/again/drop',
    'POST /nights/:id/go/decide',
    'POST /nights/:id/go/values',
    'POST /nights/:id/programme',
    'POST /nights/:id/programme/accept',
  ],
}
const METHODS = ['GET', 'HEAD', 'POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS'] as const

interface Sender {
  readonly remoteAddress: string
  readonly host: string
  readonly token: (door: Door) => string
  /** What it counts as on the night that it joined and where no night is named, and what on another night. */
  readonly own: Rank
  readonly other: Rank
}

const LAPTOP = { remoteAddress: '127.0.0.1', host: HOST }
const FIELD = { remoteAddress: PHONE, host: LAN_HOST }
const NOBODY = { own: 'nobody', other: 'nobody' } as const
const THE_HOST = { own: 'host', other: 'host' } as const
const onOwnNight = (own: Rank) => ({ own, other: 'nobody' }) as const

const SENDERS: Readonly<Record<string, Sender>> = {
  'a visitor': { ...FIELD, token: () => '', ...NOBODY },
  'a phone with a made-up token': { ...FIELD, token: () => 'AAAAAAAAAAAAAAAAAAAAAA', ...NOBODY },
  'an operator': { ...FIELD, token: ({ now }) => now.operator, ...onOwnNight('operator') },
  'an operator who sits at the laptop': { ...LAPTOP, token: ({ now }) => now.operator, ...onOwnNight('operator') },
  'a line helper': { ...FIELD, token: ({ now }) => now.helper, ...onOwnNight('helper') },
  "the host's phone": { ...FIELD, token: ({ now }) => now.hostPhone, ...onOwnNight('host-phone') },
  'a quick joiner whom the host has let in': {
    ...FIELD,
    token: ({ now }) => now.quickConfirmed,
    ...onOwnNight('operator'),
  },
  'a quick joiner who waits': { ...FIELD, token: ({ now }) => now.quickPending, ...NOBODY },
  'an operator sent away': { ...FIELD, token: ({ now }) => now.operatorRevoked, ...NOBODY },
  'a line helper sent away': { ...FIELD, token: ({ now }) => now.helperRevoked, ...NOBODY },
  "a host's phone sent away": { ...FIELD, token: ({ now }) => now.hostPhoneRevoked, ...NOBODY },
  'an operator of yesterday': { ...FIELD, token: ({ before }) => before.operator, ...NOBODY },
  'a line helper of yesterday': { ...FIELD, token: ({ before }) => before.helper, ...NOBODY },
  "a host's phone of yesterday": { ...FIELD, token: ({ before }) => before.hostPhone, ...NOBODY },
  'the host at the laptop': { ...LAPTOP, token: ({ now }) => now.host, ...THE_HOST },
  'the laptop without a session': { ...LAPTOP, token: () => '', ...NOBODY },
  'a host signed out': { ...LAPTOP, token: ({ now }) => now.hostSignedOut, ...NOBODY },
  'a host of yesterday': { ...LAPTOP, token: ({ before }) => before.host, ...NOBODY },
  "the host's cookie on a phone": { ...FIELD, token: ({ now }) => now.host, ...NOBODY },
  "the host's cookie on a phone that says localhost": {
    ...FIELD,
    host: HOST,
    token: ({ now }) => now.host,
    ...NOBODY,
  },
  'the laptop by another loopback address': {
    ...LAPTOP,
    remoteAddress: '127.0.0.2',
    token: ({ now }) => now.host,
    ...NOBODY,
  },
  'the laptop by its field address': { ...LAPTOP, host: LAN_HOST, token: ({ now }) => now.host, ...NOBODY },
}

const routes: RouteRole[] = []
let door: Door
let service: TestApp
let cells = 0
let wrongCells = 0

beforeAll(async () => {
  door = await joinedDesk()
  // Nobody is signed out by trying the way out, so that every cell has the session that it says.
  const sessions = { ...door.desk.sessions, signOut() {} }
  service = await testApp({
    desk: { ...door.desk, sessions },
    assets: await ASSETS,
    limits: { ...WIDE, live: { perAddress: 1_000, inAll: 1_000 } },
    routeSeen: (route) => routes.push(route),
  })
})
afterAll(async () => {
  const seen = `${routes.length} routes, ${Object.keys(SENDERS).length} senders: ${cells} cells`
  console.log(seen)
  const reached = `${seen}, ${wrongCells} not as the table says`
  recordRow({ row: 13, reached, isReached: cells > 0 && wrongCells === 0, seed: null, count: cells })
  await service.app.close()
  door.close()
})

const nameOf = ({ method, url }: Pick<RouteRole, 'method' | 'url'>): string => `${method} ${url}`
const namesNight = (url: string): boolean => /:nightId|\/nights\/:id/.test(url)
const isSafe = ({ method }: RouteRole): boolean => method === 'GET' || method === 'HEAD'

/** An address of a route about a night. */
function addressOf(url: string, night: typeof OWN): string {
  return url
    .replace('/nights/:id', `/nights/${night.id}`)
    .replace(':nightId', night.id)
    .replace(/:station\w*/, night.stations[0]?.id ?? '')
    .replace(':key', 'm13')
    .replace(':language', 'en')
    .replace(/:\w+/g, 'site-1')
}

/** True when a route of the list takes the address, be it as the value of a parameter. */
const isKnown = (method: string, address: string): boolean =>
  routes.some(
    (route) => route.method === method && new RegExp(`^${route.url.replaceAll(/:\w+/g, '[^/]+')}$`).test(address),
  )

async function knock(method: (typeof METHODS)[number], url: string, { remoteAddress, host, token }: Sender) {
  const hasBody = method === 'POST' || method === 'PUT' || method === 'PATCH'
  const answer = await service.app.inject({
    method,
    url,
    remoteAddress,
    headers: { host, origin: `http://${host}`, cookie: `duskrow-session=${token(door)}` },
    payloadAsStream: true,
    ...(hasBody && { payload: { never: 'asked' } }),
  })
  answer.stream().destroy()
  cells += 1
  return answer
}

/** How a request was met: let in, or turned away in one of three ways; a failure is its status. */
function metWith({ statusCode, headers }: Awaited<ReturnType<typeof knock>>): string {
  if (statusCode >= 500) return String(statusCode)
  if (statusCode === 401 || statusCode === 403) return String(statusCode)
  return statusCode === 303 && String(headers.location).startsWith('/sign-in?back=') ? 'to sign in' : 'let in'
}

function expectedOf(route: RouteRole, sender: Sender, rank: Rank): string {
  const isAtLaptop = sender.remoteAddress === '127.0.0.1' && sender.host === HOST
  if (MAY[route.role].includes(rank)) return 'let in'
  if (!isAtLaptop) return '403'
  return route.url.startsWith('/api/') ? '401' : 'to sign in'
}

describe('the list of routes', () => {
  it('has every route that the service answers', () => {
    const tree = service.app.printRoutes({ commonPrefix: false })
    const methods = [...tree.matchAll(/\(([A-Z, ]+)\)/g)].flatMap(([, names = '']) => names.split(', '))
    expect(routes.length).toBe(methods.length)
    expect(new Set(routes.map(nameOf)).size).toBe(routes.length)
    expect(routes.length).toBeGreaterThan(150)
  })

  it.each(Object.entries(CHANGES))('lets a %s change just what is named here', (role, named) => {
    const changes = routes.filter((route) => !isSafe(route) && route.role === role)
    expect(changes.map(nameOf).sort()).toEqual(named)
  })

  it('asks for the role of a phone only where the address names the night that the phone has joined', () => {
    const wrong = routes.filter(({ role, url }) => role !== 'visitor' && role !== 'host' && !namesNight(url))
    expect(wrong).toEqual([])
  })
})

describe('every route', () => {
  it.each(Object.entries(SENDERS))('meets %s as the table says, on both nights', async (_name, sender) => {
    const wrong: string[] = []
    for (const route of routes) {
      const method = METHODS.find((known) => known === route.method)
      if (!method) throw new Error(`${nameOf(route)} is of a kind that the table does not know`)
      for (const [night, rank] of [
        [OWN, sender.own],
        [OTHER, sender.other],
      ] as const) {
        if (night === OTHER && !namesNight(route.url)) continue
        const url = addressOf(route.url, night)
        const answer = await knock(method, url, sender)
        const [met, expected] = [metWith(answer), expectedOf(route, sender, rank)]
        if (met !== expected) wrong.push(`${method} ${url}: ${met}, not ${expected}`)
        if (!hasSafeHeaders(answer.headers)) wrong.push(`${method} ${url}: headers`)
      }
    }
    wrongCells += wrong.length
    expect(wrong).toEqual([])
  })

  it.each(['a visitor', 'an operator', "the host's phone", 'the host at the laptop'])(
    'answers %s no method that is not on the list',
    async (name) => {
      const sender = SENDERS[name]
      if (!sender) throw new Error(`Nobody is called ${name}`)
      const found: string[] = []
      for (const url of new Set(routes.map((route) => addressOf(route.url, OWN)))) {
        for (const method of METHODS.filter((each) => !isKnown(each, url))) {
          const { statusCode } = await knock(method, url, sender)
          if (statusCode !== 404) found.push(`${method} ${url}: ${statusCode}`)
        }
      }
      wrongCells += found.length
      expect(found).toEqual([])
    },
  )
})

/** The safe headers are there, and none that would open or lock a door. */
function hasSafeHeaders(headers: Readonly<Record<string, unknown>>): boolean {
  const areThere = Object.entries(SAFE_HEADERS).every(([name, value]) => headers[name] === value)
  return areThere && !/strict-transport|access-control|x-powered-by|server/.test(Object.keys(headers).join())
}
