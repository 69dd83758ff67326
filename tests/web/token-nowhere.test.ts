import { request } from 'node:http'
import type { Socket } from 'node:net'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { OWN } from '../support/joined-night.ts'
import { type PhoneService, phoneService } from '../support/phone-service.ts'

const log: string[] = []
/** Every request as the laptop sees it, without its body: the line, all heads, and what was answered but the page itself. */
const seen: string[] = []
let service: PhoneService
let port = 0

beforeAll(async () => {
  for (const stream of [process.stderr, process.stdout]) {
    vi.spyOn(stream, 'write').mockImplementation((text) => {
      log.push(String(text))
      return true
    })
  }
  service = await phoneService({ isLogging: true, allowedHosts: () => new Set([`field.test:${port}`]) })
  service.app.server.on('request', ({ method, url, rawHeaders }, response) => {
    seen.push(`${method} ${url} ${rawHeaders.join(' ')}`)
    response.once('finish', () => seen.push(JSON.stringify([response.statusCode, response.getHeaders()])))
  })
  await service.app.listen({ port: 0, host: '127.0.0.1' })
  const address = service.app.server.address()
  port = typeof address === 'object' && address !== null ? address.port : 0
})
afterAll(async () => {
  vi.restoreAllMocks()
  await service.close()
})

interface Answer {
  readonly status: number
  readonly location: string
  readonly cookie: string
  readonly body: string
}

/** Asks as a browser does: without what stands behind the `#`, which goes with neither the request nor the Referer. */
function ask(
  href: string,
  { from = '', form, cookie = '' }: { from?: string; form?: Record<string, string>; cookie?: string } = {},
) {
  const { pathname, search, host } = new URL(href)
  const referer = from.replace(/#.*$/, '')
  const headers = {
    host,
    ...(cookie && { cookie }),
    ...(referer && { referer }),
    ...(form && { origin: `http://${host}`, 'content-type': 'application/x-www-form-urlencoded' }),
  }
  return new Promise<Answer>((resolve, reject) => {
    const call = request({
      port,
      host: '127.0.0.1',
      localAddress: '127.0.0.9',
      path: pathname + search,
      method: form ? 'POST' : 'GET',
      headers,
    })
    call.once('error', reject)
    call.once('response', (response) => {
      let body = ''
      response.on('data', (part) => {
        body += part
      })
      response.once('end', () => {
        const { location = '', 'set-cookie': [set = ''] = [] } = response.headers
        resolve({ status: response.statusCode ?? 0, location, cookie: set.split(';')[0] ?? '', body })
      })
    })
    call.end(form && new URLSearchParams(form).toString())
  })
}

const said = () => [...seen, ...log].join('\n')

describe('a token of the night', () => {
  it('is seen nowhere but in the form that brings it: not in an address, a head, an answer or a log', async () => {
    const { token, code } = service.desk.joins.codes(OWN.id)
    const scanned = `http://field.test:${port}/join#${token}`
    const page = await ask(scanned)
    const joined = await ask(`http://field.test:${port}/join`, {
      from: scanned,
      form: { token, name: 'Ada', role: 'operator', code: '' },
    })
    const on = await ask(`http://field.test:${port}${joined.location}`, { from: scanned, cookie: joined.cookie })
    const again = await ask(`http://field.test:${port}/join`, { cookie: joined.cookie })
    expect([page.status, joined.status, on.status, again.status]).toEqual([200, 303, 200, 200])
    expect(seen.length).toBe(8)
    for (const secret of [token, code]) {
      expect(said()).not.toContain(secret)
      for (const { body } of [page, joined, on, again]) expect(body).not.toContain(secret)
    }
    const session = joined.cookie.split('=')[1] ?? ''
    expect(session).toHaveLength(22)
    for (const { body } of [page, joined, on, again]) expect(body).not.toContain(session)
    expect(log.join()).not.toContain(session)
  })

  it('is not told of when it is wrong, too long, or in a form that cannot be read', async () => {
    const wrong = ['AbCdEfGhIjKlMnOpQrStUv', 'x'.repeat(4_000)]
    for (const token of wrong) {
      const { status, body } = await ask(`http://field.test:${port}/join`, { form: { token, name: 'Ada' } })
      expect(status).toBe(422)
      expect(body + said()).not.toContain(token)
    }
  })

  it('is not in the log when the laptop stumbles over it', async () => {
    const { token } = service.desk.joins.codes(OWN.id)
    const broken = vi.spyOn(service.desk.sessions, 'who').mockImplementation(() => {
      throw new Error('The disk is gone')
    })
    const cookie = 'duskrow-session=AAAAAAAAAAAAAAAAAAAAAA'
    const { status } = await ask(`http://field.test:${port}/join`, { form: { token, name: 'Ada' }, cookie })
    broken.mockRestore()
    expect(status).toBe(500)
    expect(log.join()).toContain('The disk is gone')
    expect(said()).not.toContain(token)
    expect(log.join()).not.toContain('AAAAAAAAAAAAAAAAAAAAAA')
  })

  it('is not in the log when a phone hangs up in the middle of its form', async () => {
    const { token } = service.desk.joins.codes(OWN.id)
    const call = request({
      port,
      host: '127.0.0.1',
      path: '/join',
      method: 'POST',
      headers: {
        host: `field.test:${port}`,
        origin: `http://field.test:${port}`,
        'content-length': '900',
        'content-type': 'application/x-www-form-urlencoded',
      },
    })
    call.on('error', () => {})
    call.write(`token=${token}&na`)
    const socket = await new Promise<Socket>((resolve) => call.once('socket', resolve))
    await new Promise((done) => setTimeout(done, 100))
    socket.destroy()
    await new Promise((done) => setTimeout(done, 100))
    expect(said()).not.toContain(token)
  })
})
