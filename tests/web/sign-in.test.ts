import cookie from '@fastify/cookie'
import Fastify from 'fastify'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { DEFAULT_LIMITS } from '../../server/web/limits.ts'
import { signInDesk } from '../../server/web/sign-in.ts'
import { fakeDesk, PIN } from '../support/fake-desk.ts'
import { asHost, asVisitor, HOST, type TestApp, testApp, WIDE } from '../support/web.ts'

let service: TestApp
beforeEach(async () => {
  service = await testApp()
})
afterEach(() => service.app.close())

const signIn = (pin: string, remoteAddress = '127.0.0.1', host = HOST) =>
  service.app.inject({
    method: 'POST',
    url: '/api/session',
    remoteAddress,
    headers: { host, origin: `http://${host}` },
    payload: { pin },
  })

describe('signing in', () => {
  it('hands a session cookie to the right PIN at the laptop', async () => {
    const answer = await signIn(PIN)
    expect(answer.statusCode).toBe(201)
    expect(answer.cookies).toEqual([
      { name: 'duskrow-session', value: expect.any(String), path: '/', httpOnly: true, sameSite: 'Lax' },
    ])
    expect(answer.body).not.toContain(answer.cookies[0]?.value)
  })

  it('hands nothing to a wrong one, and nothing to a right one from a phone', async () => {
    const wrong = await signIn('000000')
    expect([wrong.statusCode, wrong.cookies]).toEqual([403, []])
    for (const address of ['192.168.50.77', '127.0.0.2', '::2']) {
      const answer = await signIn(PIN, address)
      expect([answer.statusCode, answer.cookies]).toEqual([403, []])
    }
    expect((await signIn(PIN, '127.0.0.1', '192.168.50.1:8080')).statusCode).toBe(403)
  })

  it('makes a new session each time and ends the one before', async () => {
    const first = (await signIn(PIN)).cookies[0]?.value ?? ''
    const again = await service.app.inject(
      asHost({
        method: 'POST',
        url: '/api/session',
        payload: { pin: PIN },
        headers: { cookie: `duskrow-session=${first}` },
      }),
    )
    expect(again.cookies[0]?.value).not.toBe(first)
    expect(service.kept.tokens.has(first)).toBe(false)
  })

  it('ends with the session: the old cookie opens nothing', async () => {
    const build = () => service.app.inject(asHost({ method: 'POST', url: '/api/nights/night-1/tour' }))
    expect((await build()).statusCode).toBe(201)
    const out = await service.app.inject(asHost({ method: 'DELETE', url: '/api/session' }))
    expect(out.statusCode).toBe(204)
    expect(out.cookies[0]).toMatchObject({ name: 'duskrow-session', value: '' })
    expect((await build()).statusCode).toBe(401)
  })

  it('makes guessing slow, also in parallel, but never for longer than a minute and never for good', async () => {
    const answers = await Promise.all(Array.from({ length: 50 }, (_, i) => signIn(String(i).padStart(6, '0'))))
    const count = (status: number) => answers.filter(({ statusCode }) => statusCode === status).length
    expect([count(403), count(429)]).toEqual([5, 45])
    const waits = answers.flatMap(({ headers }) => Number(headers['retry-after'] ?? []))
    expect(Math.max(...waits.filter(Number.isFinite))).toBeLessThanOrEqual(60)
    expect((await signIn(PIN, '::1')).statusCode).toBe(201)
  })
})

describe('the wait after wrong PINs', () => {
  it('doubles to a minute, and is forgotten after two', async () => {
    let nowMs = 0
    const waits: number[] = []
    const gate = signInDesk(fakeDesk().desk, DEFAULT_LIMITS, () => nowMs)
    const app = Fastify()
    await app.register(cookie)
    app.post<{ Params: { pin: string } }>('/:pin', async (request, reply) => {
      await gate.open(request, reply, request.params.pin)
      return 'in'
    })
    const tryPin = (pin: string) => app.inject({ method: 'POST', url: `/${pin}`, headers: { host: HOST } })
    for (let i = 0; i < 24; i++) {
      const wait = Number((await tryPin('000000')).headers['retry-after'] ?? 0)
      if (wait > 0) waits.push(wait)
      nowMs += wait * 1000
    }
    expect(waits).toEqual([1, 2, 4, 8, 16, 32, 60, 60, 60, 60])
    nowMs += DEFAULT_LIMITS.signIn.forgetMs
    expect((await tryPin(PIN)).statusCode).toBe(200)
  })
})

describe('the pace', () => {
  it('slows down one address and neither another nor the host', async () => {
    await service.app.close()
    service = await testApp({ limits: { ...WIDE, requests: { max: 3, windowMs: 60_000 } } })
    const visit = (remoteAddress: string) => service.app.inject({ ...asVisitor({ url: '/api/health' }), remoteAddress })
    for (let i = 0; i < 3; i++) expect((await visit('192.168.50.66')).statusCode).toBe(200)
    const refused = await visit('192.168.50.66')
    expect(refused.headers['retry-after']).toBeDefined()
    expect(refused.json()).toMatchObject({ error: { code: 'fault.too-many' } })
    expect((await visit('192.168.50.67')).statusCode).toBe(200)
    for (let i = 0; i < 10; i++) expect((await service.app.inject(asHost({ url: '/api/health' }))).statusCode).toBe(200)
  })
})

describe('the way back after signing in', () => {
  const longPath = (length: number) => `/nights/${'n'.repeat(length - '/nights/'.length)}`
  const CASES: readonly (readonly [name: string, back: string, led: string])[] = [
    ['a page with a question', '/nights/new?siteId=abc', '/nights/new?siteId=abc'],
    ['a path of 500 characters', longPath(500), longPath(500)],
    ['one of 501', longPath(501), '/'],
    ['another host', '//elsewhere.example', '/'],
    ['another host behind a dot', '/.//elsewhere.example', '/'],
    ['two slashes in a row', '/nights//new', '/'],
    ['another host behind a backslash', '/\\elsewhere.example', '/'],
    ['a backslash', '/nights\\new', '/'],
    ['a whole address', 'http://elsewhere.example/', '/'],
    ['no path', 'nights', '/'],
  ]

  it.each(CASES)('from %s is one rule, in the form and after it', async (_name, back, led) => {
    const { app } = service
    const page = await app.inject(asHost({ url: `/sign-in?back=${encodeURIComponent(back)}`, headers: { cookie: '' } }))
    expect(page.statusCode).toBe(200)
    const headers = { 'content-type': 'application/x-www-form-urlencoded' }
    const payload = new URLSearchParams({ pin: PIN, back }).toString()
    const answer = await app.inject(asHost({ method: 'POST', url: '/sign-in', headers, payload }))
    expect([answer.statusCode, answer.headers.location]).toEqual([303, led])
  })

  it('is offered only where it will be kept', async () => {
    const turned = async (url: string) =>
      (await service.app.inject(asHost({ url, headers: { cookie: '' } }))).headers.location
    expect(await turned('/nights/new?siteId=abc')).toBe(`/sign-in?back=${encodeURIComponent('/nights/new?siteId=abc')}`)
    expect(await turned(`/nights/new?siteId=${'a'.repeat(600)}`)).toBe('/sign-in?back=%2F')
  })
})
