import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { Fault, type FaultCode } from '../../server/errors.ts'
import { SAFE_HEADERS } from '../../server/web/headers.ts'
import { troubleOf } from '../../server/web/problems.ts'
import { fakeDesk } from '../support/fake-desk.ts'
import { SITE_DRAFT } from '../support/field-data.ts'
import { asHost, asVisitor, type TestApp, testApp } from '../support/web.ts'

const SECRET = 'SELECT pin FROM setting; /home/ines/.local/share at sites.ts:12'
const broken = (): never => {
  throw new Error(SECRET)
}

let service: TestApp
beforeAll(async () => {
  const { desk } = fakeDesk()
  service = await testApp({
    desk: {
      ...desk,
      sites: { all: broken, find: broken, add: broken, change: broken },
      nights: {
        all: broken,
        find: broken,
        current: broken,
        add: broken,
        change: broken,
        zoneOf: broken,
        everyStation: broken,
      },
      sight: { ask: broken },
    },
  })
})
afterAll(() => service.app.close())

describe('an unexpected error', () => {
  it.each([
    ['GET', '/api/sites'],
    ['GET', '/api/nights/night-1'],
    ['GET', '/api/nights/night-1/live'],
    ['POST', '/api/sites'],
    ['GET', '/nights'],
  ] as const)('says nothing of itself at %s %s', async (method, url) => {
    const answer = await service.app.inject(asHost({ method, url, ...(method === 'POST' && { payload: SITE_DRAFT }) }))
    expect(answer.statusCode).toBe(500)
    expect(answer.body).not.toMatch(/SELECT|home|sites\.ts|stack/)
    expect(answer.headers).toMatchObject(SAFE_HEADERS)
  })

  it('leaves the service standing', async () => {
    expect((await service.app.inject(asVisitor({ url: '/api/health' }))).statusCode).toBe(200)
  })
})

describe('troubleOf', () => {
  it.each<[FaultCode, number]>([
    ['not-found', 404],
    ['invalid', 422],
    ['conflict', 409],
    ['forbidden', 403],
    ['too-large', 413],
    ['busy', 503],
    ['storage', 507],
  ])('gives the fault %s its status', (code, status) => {
    expect(troubleOf(new Fault(code, 'fault.x', { count: 2 }))).toMatchObject({
      status,
      key: 'fault.x',
      values: { count: 2 },
    })
  })

  it('calls too many tries 429', () => expect(troubleOf(new Fault('busy', 'fault.too-many-tries')).status).toBe(429))

  it.each([[new Error('x')], ['text'], [undefined], [Object.assign(new Error('x'), { statusCode: 418 })]])(
    'makes a neutral 500 of %s',
    (thrown) => expect(troubleOf(thrown)).toEqual({ status: 500, key: 'fault.internal' }),
  )
})

describe('the place of an answer', () => {
  it('decides between JSON and a page', async () => {
    const api = await service.app.inject(asVisitor({ url: '/api/nowhere' }))
    const page = await service.app.inject(asVisitor({ url: '/nowhere' }))
    expect(api.headers['content-type']).toBe('application/json; charset=utf-8')
    expect(page.headers['content-type']).toBe('text/html; charset=utf-8')
    expect([api.statusCode, page.statusCode]).toEqual([404, 404])
  })

  it.each(['/%zz', '/api/%zz', `/api/objects/${'x'.repeat(120)}`])('keeps the safe headers at %s', async (url) => {
    const answer = await service.app.inject(asVisitor({ url }))
    expect(answer.statusCode).toBeGreaterThanOrEqual(400)
    expect(answer.statusCode).toBeLessThan(500)
    expect(answer.headers).toMatchObject(SAFE_HEADERS)
  })
})
