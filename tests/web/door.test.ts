import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { SITE_DRAFT } from '../support/field-data.ts'
import { HOST, HOST_COOKIE, LAN_HOST, type TestApp, testApp } from '../support/web.ts'

const HOSTS = [HOST, LAN_HOST, 'evil.example:8080', 'localhost', 'localhost:8081', '127.0.0.1.evil.example:8080', '']
const ORIGINS = ['same', 'http://evil.example', 'null', 'https', undefined] as const
const TYPES = [
  'application/json',
  'application/json; charset=utf-8',
  'application/x-www-form-urlencoded',
  'text/plain',
  'multipart/form-data; boundary=x',
  'application/jsonx',
  'application/xml',
  undefined,
] as const
const METHODS = ['GET', 'POST', 'DELETE', 'PUT'] as const
const COOKIES = [HOST_COOKIE, undefined] as const

interface Cell {
  readonly host: string
  readonly origin: (typeof ORIGINS)[number]
  readonly type: (typeof TYPES)[number]
  readonly cookie: (typeof COOKIES)[number]
  readonly method: (typeof METHODS)[number]
}

const CELLS: readonly Cell[] = HOSTS.flatMap((host) =>
  ORIGINS.flatMap((origin) =>
    TYPES.flatMap((type) =>
      COOKIES.flatMap((cookie) => METHODS.map((method) => ({ host, origin, type, cookie, method }))),
    ),
  ),
)

let service: TestApp
beforeAll(async () => {
  service = await testApp()
})
afterAll(() => service.app.close())

function ask({ host, origin, type, cookie, method }: Cell) {
  const said = origin === 'same' ? `http://${host}` : origin === 'https' ? `https://${host}` : origin
  return service.app.inject({
    method,
    url: method === 'DELETE' ? '/api/session' : '/api/sites',
    remoteAddress: '127.0.0.1',
    headers: {
      host,
      ...(said !== undefined && { origin: said }),
      ...(type !== undefined && { 'content-type': type }),
      ...(cookie !== undefined && method !== 'DELETE' && { cookie }),
    },
    ...(method === 'POST' && { payload: JSON.stringify(SITE_DRAFT) }),
  })
}

/** What the rules of the door say, told apart from how the service checks them. */
function mayPass({ host, origin, type, cookie, method }: Cell): boolean {
  if (host !== HOST && host !== LAN_HOST) return false
  if (method === 'GET') return true
  if (origin !== 'same' || method === 'PUT') return false
  if (method === 'DELETE') return type === undefined || type === 'application/x-www-form-urlencoded'
  return (
    host === HOST &&
    cookie !== undefined &&
    (type?.startsWith('application/json') ?? false) &&
    type !== 'application/jsonx'
  )
}

describe('the door', () => {
  it(`lets in only what it should, of ${CELLS.length} kinds of request, and keeps nothing else`, async () => {
    expect(CELLS.length).toBeGreaterThanOrEqual(400)
    const before = service.kept.sites.length
    const wrong: string[] = []
    for (const cell of CELLS) {
      const { statusCode } = await ask(cell)
      if (statusCode < 300 !== mayPass(cell) || statusCode >= 500) wrong.push(`${statusCode} ${JSON.stringify(cell)}`)
    }
    expect(wrong).toEqual([])
    const kept = CELLS.filter((cell) => cell.method === 'POST' && mayPass(cell)).length
    expect(kept).toBe(2)
    expect(service.kept.sites.length - before).toBe(kept)
  })

  it('says 421 to a foreign Host, on pages and unknown addresses too', async () => {
    for (const url of ['/', '/api/health', '/nowhere', '/assets/day.css']) {
      const { statusCode } = await service.app.inject({ url, headers: { host: 'evil.example:8080' } })
      expect(statusCode).toBe(421)
    }
  })

  it('denies a cross-site request by Sec-Fetch-Site, and needs none of it to allow', async () => {
    const post = (headers: Record<string, string>) =>
      service.app.inject({
        method: 'DELETE',
        url: '/api/session',
        headers: { host: HOST, origin: `http://${HOST}`, ...headers },
      })
    expect((await post({ 'sec-fetch-site': 'cross-site' })).statusCode).toBe(403)
    expect((await post({})).statusCode).toBe(204)
  })

  it('lets forwarded headers change nothing', async () => {
    const forwarded = { 'x-forwarded-for': '127.0.0.1', 'x-forwarded-host': HOST, 'x-forwarded-proto': 'https' }
    const ask = (headers: Record<string, string>) =>
      service.app.inject({
        method: 'POST',
        url: '/api/sites',
        remoteAddress: '192.168.50.77',
        payload: SITE_DRAFT,
        headers: { host: LAN_HOST, origin: `http://${LAN_HOST}`, cookie: HOST_COOKIE, ...headers },
      })
    expect((await ask(forwarded)).statusCode).toBe(403)
    expect((await ask({ ...forwarded, host: 'evil.example' })).statusCode).toBe(421)
  })
})
