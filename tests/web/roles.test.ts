import Fastify from 'fastify'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { SAFE_HEADERS } from '../../server/web/headers.ts'
import { localPath, nameRoles, type RouteRole } from '../../server/web/roles.ts'
import { HOST, HOST_COOKIE, LAN_HOST, PHONE, type TestApp, testApp } from '../support/web.ts'

/** Who may knock: address, Host and cookie. Only the second is the host. */
const SENDERS = {
  'a visitor': { remoteAddress: PHONE, host: LAN_HOST, cookie: '' },
  'the host at the laptop': { remoteAddress: '127.0.0.1', host: HOST, cookie: HOST_COOKIE },
  'the laptop without a session': { remoteAddress: '127.0.0.1', host: HOST, cookie: '' },
  'a session that has ended': { remoteAddress: '127.0.0.1', host: HOST, cookie: 'duskrow-session=gone' },
  "the host's cookie on a phone": { remoteAddress: PHONE, host: LAN_HOST, cookie: HOST_COOKIE },
  "the host's cookie on a phone that says localhost": { remoteAddress: PHONE, host: HOST, cookie: HOST_COOKIE },
  'the laptop by another loopback address': { remoteAddress: '127.0.0.2', host: HOST, cookie: HOST_COOKIE },
  'the laptop by its field address': { remoteAddress: '127.0.0.1', host: LAN_HOST, cookie: HOST_COOKIE },
} as const
type Sender = keyof typeof SENDERS

const METHODS = ['HEAD', 'GET', 'POST', 'PUT', 'DELETE'] as const
const routes: RouteRole[] = []
let service: TestApp

beforeAll(async () => {
  service = await testApp({ routeSeen: (route) => routes.push(route) })
})
afterAll(() => service.app.close())

async function knock({ method, url }: RouteRole, sender: Sender) {
  const { remoteAddress, host, cookie } = SENDERS[sender]
  service.kept.tokens.add('a-living-session')
  const hasBody = method !== 'GET' && method !== 'HEAD'
  const address = url
    .replace(':key', 'm13')
    .replace(/:station\w*/, 'station-1')
    .replace(/:\w+/g, 'night-1')
  const answer = await service.app.inject({
    method: METHODS.find((known) => known === method) ?? 'GET',
    url: address,
    remoteAddress,
    headers: { host, origin: `http://${host}`, cookie },
    payloadAsStream: true,
    ...(hasBody && method !== 'DELETE' && { payload: { never: 'asked' } }),
  })
  answer.stream().destroy()
  return answer
}

const isTurnedAway = ({ statusCode, headers }: { statusCode: number; headers: Record<string, unknown> }): boolean =>
  statusCode === 401 ||
  statusCode === 403 ||
  (statusCode === 303 && String(headers.location).startsWith('/sign-in?back='))

describe('roles', () => {
  it('finds every route with a role, host routes among them', () => {
    expect(routes.length).toBeGreaterThan(30)
    expect(routes.filter(({ role }) => role === 'host').map(({ url }) => url)).toContain('/api/sites')
    expect(routes.filter(({ role }) => role === 'operator').map(({ url }) => url)).toContain('/api/nights/:id/marks')
  })

  it.each(Object.keys(SENDERS) as Sender[])(
    'turns %s away from just the routes that are not for them',
    async (sender) => {
      const wrong: string[] = []
      for (const route of routes) {
        const answer = await knock(route, sender)
        const isAllowed = route.role === 'visitor' || sender === 'the host at the laptop'
        const isSignIn = route.url.endsWith('/session') || route.url.startsWith('/sign-')
        if (!isSignIn && isTurnedAway(answer) === isAllowed)
          wrong.push(`${answer.statusCode} ${route.method} ${route.url}`)
        if (answer.statusCode >= 500) wrong.push(`${answer.statusCode} ${route.method} ${route.url}`)
      }
      expect(wrong).toEqual([])
    },
  )

  it('sends the safe headers with every route, and no header that would open or lock a door', async () => {
    for (const route of routes) {
      for (const sender of ['a visitor', 'the host at the laptop'] as const) {
        const { headers } = await knock(route, sender)
        expect(headers, route.url).toMatchObject(SAFE_HEADERS)
        const names = Object.keys(headers).join()
        expect(names, route.url).not.toMatch(/strict-transport|access-control|x-powered-by|server/)
      }
    }
  })

  it('asks the laptop for a PIN and says no to a phone', async () => {
    const route = { method: 'POST', url: '/api/sites', role: 'host' } as const
    expect((await knock(route, 'the laptop without a session')).statusCode).toBe(401)
    expect((await knock(route, 'a session that has ended')).statusCode).toBe(401)
    expect((await knock(route, "the host's cookie on a phone")).statusCode).toBe(403)
  })

  it('refuses to start with a route that names no role', () => {
    const app = Fastify()
    nameRoles(app, () => {})
    expect(() => app.get('/open', async () => 'hello')).toThrow('/open names no role')
  })
})

describe('localPath', () => {
  it.each(['/', '/nights/night-1?lang=en', '/a-b_c~%20'])('keeps %s', (path) => expect(localPath(path)).toBe(path))

  it.each([
    '//evil.example',
    '/\\evil.example',
    'https://evil.example',
    'evil',
    '',
    '/\tx',
    '/a b',
    undefined,
    '/x\r\nSet-Cookie: a',
  ])('turns %j into the first page', (path) => expect(localPath(path)).toBe('/'))
})
