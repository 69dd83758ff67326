import { connect } from 'node:net'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { DEFAULT_LIMITS } from '../../server/web/limits.ts'
import { besiege, longestHeldMs } from '../support/greed.ts'
import { OWN } from '../support/joined-night.ts'
import { type PhoneService, phoneService } from '../support/phone-service.ts'

const SECONDS = 3
const HONEST = { operators: 10, pages: 10, marksASecond: 10, seconds: SECONDS }
/** In the short run no request may take longer than this; the service allows ten seconds. */
const SHORT_MS = 2_000

let service: PhoneService
let port = 0
beforeAll(async () => {
  service = await phoneService({ limits: DEFAULT_LIMITS, allowedHosts: () => new Set([`127.0.0.1:${port}`]) })
  const { server } = service.app
  expect([server.headersTimeout, server.requestTimeout]).toEqual([5_000, 9_000])
  server.headersTimeout = server.requestTimeout = SHORT_MS
  await service.app.listen({ port: 0, host: '127.0.0.1' })
  const address = server.address()
  port = typeof address === 'object' && address !== null ? address.port : 0
})
afterAll(() => service.close())

it('a hundred slow connections, slow readers and two floods keep no mark and no page from its phone', async () => {
  const place = { port, nightId: OWN.id, version: service.desk.marks.version(OWN.id) }
  const evening = { night: OWN, code: service.desk.joins.codes(OWN.id).code }
  const siege = await besiege(place, evening, HONEST, { slow: 100, readers: 20, floods: 2 })
  expect(siege.lost).toEqual([])
  expect(siege.unheard).toBe(0)
  expect(siege.slowMs.length).toBeGreaterThanOrEqual(100)
  expect(longestHeldMs(siege)).toBeLessThan(12_000)
  expect(siege.flooded['429']).toBeGreaterThan(0)
  expect(siege.flooded.cut).toBeGreaterThan(0)
})

describe('an address that asks on and on without waiting for answers', () => {
  const ask = (times: number, localAddress: string): Promise<string> =>
    new Promise((resolve) => {
      let heard = ''
      const request = `GET /api/health HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\n`
      const socket = connect({ port, host: '127.0.0.1', localAddress }, () =>
        socket.write(`${`${request}\r\n`.repeat(times - 1)}${request}Connection: close\r\n\r\n`),
      )
      socket.on('data', (data) => {
        heard += data
      })
      socket.on('error', () => {})
      socket.once('close', () => resolve(heard))
    })
  const answers = (heard: string): number => heard.match(/HTTP\/1\.1 200 /g)?.length ?? 0

  it('is hung up on and let in no more for now, and others are not', async () => {
    expect(answers(await ask(2, '127.0.9.1'))).toBe(2)
    expect(answers(await ask(50, '127.0.9.1'))).toBe(0)
    expect(await ask(1, '127.0.9.1')).toBe('')
    expect(answers(await ask(1, '127.0.9.2'))).toBe(1)
  })

  it('is let in when it is the laptop itself', async () => {
    expect(answers(await ask(50, '127.0.0.1'))).toBe(50)
  })
})
