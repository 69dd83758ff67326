import { connect } from 'node:net'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { SAFE_HEADERS } from '../../server/web/headers.ts'
import { type TestApp, testApp, WIDE } from '../support/web.ts'

let service: TestApp
let port = 0

beforeAll(async () => {
  service = await testApp({
    allowedHosts: () => new Set([`127.0.0.1:${port}`]),
    limits: { ...WIDE, connectionsPerAddress: 3 },
  })
  await service.app.listen({ port: 0, host: '127.0.0.1' })
  const address = service.app.server.address()
  port = typeof address === 'object' && address !== null ? address.port : 0
})
afterAll(() => service.app.close())

/** Sends bytes as they are and answers everything that comes back until the line is closed. */
function say(text: string, localAddress = '127.0.0.1'): Promise<string> {
  return new Promise((resolve) => {
    const socket = connect({ port, host: '127.0.0.1', localAddress }, () => socket.write(text))
    let heard = ''
    socket.on('data', (data) => {
      heard += data
    })
    socket.on('close', () => resolve(heard))
    socket.on('error', () => resolve(heard))
  })
}

const request = (...lines: string[]) => `${[...lines, 'Connection: close'].join('\r\n')}\r\n\r\n`
const ours = () => `Host: 127.0.0.1:${port}`

describe('the door on a real line', () => {
  it('lets in one Host that is ours', async () => {
    expect(await say(request('GET /api/health HTTP/1.1', ours()))).toMatch(/^HTTP\/1.1 200 /)
  })

  it.each([
    ['no Host', () => request('GET /api/health HTTP/1.1'), 421],
    ['two Hosts, ours first', () => request('GET /api/health HTTP/1.1', ours(), 'Host: evil.example'), 421],
    ['two Hosts, ours last', () => request('GET /api/health HTTP/1.1', 'Host: evil.example', ours()), 421],
    ['our Host said twice', () => request('GET /api/health HTTP/1.1', ours(), ours()), 421],
    ['a whole foreign address', () => request('GET http://evil.example/api/health HTTP/1.1', ours()), 421],
    ['a whole address of ours', () => request(`GET http://127.0.0.1:${port}/api/health HTTP/1.1`, ours()), 200],
    ['an old protocol without Host', () => request('GET /api/health HTTP/1.0'), 421],
    ['what is not HTTP', () => 'good evening\r\n\r\n', 400],
    ['too long a head', () => request('GET / HTTP/1.1', ours(), `X: ${'x'.repeat(40_000)}`), 431],
    ['TRACE', () => request('TRACE / HTTP/1.1', ours(), `Origin: http://127.0.0.1:${port}`), 404],
  ])('answers %s with %#', async (_what, text, status) => {
    const heard = await say(text())
    expect(heard).toMatch(new RegExp(`^HTTP/1.1 ${status} `))
    for (const [name, value] of Object.entries(SAFE_HEADERS))
      expect(heard.toLowerCase()).toContain(`${name}: ${value}`.toLowerCase())
  })

  it('hangs up on the fourth line of one address, and not on those of another or of the laptop', async () => {
    const held = await Promise.all(Array.from({ length: 3 }, () => open('127.0.0.9')))
    expect(await say(request('GET /api/health HTTP/1.1', ours()), '127.0.0.9')).toBe('')
    expect(await say(request('GET /api/health HTTP/1.1', ours()), '127.0.0.8')).toMatch(/ 200 /)
    expect(await say(request('GET /api/health HTTP/1.1', ours()))).toMatch(/ 200 /)
    for (const socket of held) socket.destroy()
  })

  it('hangs up on a head that never ends', { timeout: 20_000 }, async () => {
    const startedMs = performance.now()
    const heard = await say(`GET / HTTP/1.1\r\n${ours()}\r\n`)
    expect(heard).toMatch(/^HTTP\/1.1 408 /)
    expect(performance.now() - startedMs).toBeLessThan(12_000)
  })
})

function open(localAddress: string): Promise<ReturnType<typeof connect>> {
  return new Promise((resolve) => {
    const socket = connect({ port, host: '127.0.0.1', localAddress }, () => resolve(socket))
    socket.on('error', () => {})
  })
}
