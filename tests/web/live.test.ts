import { connect, type Socket } from 'node:net'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { liveBoard } from '../../server/web/live.ts'
import { asHost, asVisitor, LAN_HOST, PHONE, type TestApp, testApp, WIDE } from '../support/web.ts'

let service: TestApp
beforeEach(async () => {
  service = await testApp({ limits: { ...WIDE, live: { perAddress: 2, inAll: 3 } } })
})
afterEach(() => service.app.close())

async function listen(remoteAddress = PHONE, lastEventId?: string, as = asVisitor) {
  const headers = lastEventId === undefined ? {} : { 'last-event-id': lastEventId }
  const answer = await service.app.inject({
    ...as({ url: '/api/nights/night-1/live', headers }),
    remoteAddress,
    payloadAsStream: true,
  })
  let heard = ''
  answer.stream().on('data', (data) => {
    heard += data
  })
  return { answer, heard: () => heard }
}

/** Longer than news is gathered. */
const settle = () => new Promise((done) => setTimeout(done, 200))
const mark = (key: string) => ({
  key,
  kind: 'shown',
  stationId: 'station-1',
  payload: { targetKey: 'm13' },
  secondsAgo: 0,
})
const record = (key: string) =>
  service.app.inject(asHost({ method: 'POST', url: '/api/nights/night-1/marks', payload: { marks: [mark(key)] } }))

async function listenOnLine({ app }: TestApp): Promise<number> {
  await app.listen({ port: 0, host: '127.0.0.1' })
  const address = app.server.address()
  return typeof address === 'object' && address !== null ? address.port : 0
}

/** A phone's line to the stream, answered once its head has come. */
function call(port: number): Promise<Socket> {
  return new Promise((resolve) => {
    const socket = connect({ port, host: '127.0.0.1', localAddress: '127.0.0.9' }, () =>
      socket.write(`GET /api/nights/night-1/live HTTP/1.1\r\nHost: ${LAN_HOST}\r\n\r\n`),
    )
    socket.once('data', () => resolve(socket))
  })
}

async function statusOnce(port: number): Promise<number> {
  const socket = connect({ port, host: '127.0.0.1', localAddress: '127.0.0.9' })
  socket.write(`GET /api/nights/night-1/live HTTP/1.1\r\nHost: ${LAN_HOST}\r\n\r\n`)
  const head: string = await new Promise((resolve) => socket.once('data', (data) => resolve(String(data))))
  socket.destroy()
  return Number(head.split(' ')[1])
}

describe('the live stream', () => {
  it('starts with how long to wait and the state of the night, then tells each mark and each programme', async () => {
    const { answer, heard } = await listen()
    await settle()
    expect(answer.headers).toMatchObject({ 'content-type': 'text/event-stream', 'cache-control': 'no-store' })
    expect(heard()).toMatch(/^retry: 2000\n\nid: first\.0\nevent: marks\ndata: \{.*"isSnapshot":true/)
    await record('phone-0001')
    await service.app.inject(asHost({ method: 'POST', url: '/api/nights/night-1/tour' }))
    await settle()
    expect(heard()).toContain('id: first.1\nevent: marks\n')
    expect(heard()).toContain('event: programme\ndata: {"tourId":"tour-2","version":2}')
  })

  it('gives a phone that comes back only what it missed', async () => {
    await record('phone-0001')
    await record('phone-0002')
    const { heard } = await listen(PHONE, 'first.1')
    await settle()
    expect(heard()).toContain('"isSnapshot":false')
    expect(heard()).toContain('phone-0002')
    expect(heard()).not.toContain('phone-0001')
  })

  it('gives everything to one who acts and is of another epoch', async () => {
    await record('phone-0001')
    const { heard } = await listen('127.0.0.1', 'older.7', asHost)
    await settle()
    expect(heard()).toMatch(/"isSnapshot":true.*phone-0001/)
  })

  it.each(['', 'first', 'first.', 'first.x', 'first.1e0', 'first.0.1', '.1', '7', 'first.99', 'first.-1', 'é.1'])(
    'gives everything to one who acts and says that it is at %j',
    async (lastEventId) => {
      await record('phone-0001')
      const { heard } = await listen('127.0.0.1', lastEventId, asHost)
      await settle()
      expect(heard()).toMatch(/^retry: 2000\n\nid: first\.1\nevent: marks\ndata: .*"isSnapshot":true.*phone-0001/)
    },
  )

  it('gives a visitor of another epoch the state of the night without its marks', async () => {
    await record('phone-0001')
    const { heard } = await listen(PHONE, 'older.7')
    await settle()
    expect(heard()).toMatch(/"isSnapshot":true,"marks":\[\],"field":\{/)
  })

  it('holds so many streams of one address and in all', async () => {
    const statusOf = async (address?: string) => (await listen(address)).answer.statusCode
    expect([await statusOf(), await statusOf(), await statusOf()]).toEqual([200, 200, 503])
    expect([await statusOf('192.168.50.78'), await statusOf('192.168.50.79')]).toEqual([200, 503])
  })

  it('lets go of a phone that hangs up', async () => {
    const port = await listenOnLine(service)
    const held = [await call(port), await call(port)]
    expect(await statusOnce(port)).toBe(503)
    for (const socket of held) socket.destroy()
    await expect.poll(() => statusOnce(port)).toBe(200)
  })

  it('ends when the service closes', async () => {
    const { answer, heard } = await listen()
    const ended = new Promise((done) => answer.stream().once('end', done))
    await service.app.close()
    await ended
    expect(heard()).toMatch(/retry: 1000\n\n$/)
  })
})

describe('who marked and what they said', () => {
  const url = '/api/nights/night-1/marks'
  const seen = { ...mark('phone-0003'), kind: 'seen', payload: { targetKey: 'm13', who: 'not' } }

  it('is read by those who act, and told to no page and no visitor', async () => {
    const { heard } = await listen()
    await settle()
    const { statusCode } = await service.app.inject(asHost({ method: 'POST', url, payload: { marks: [seen] } }))
    expect(statusCode).toBe(200)
    await settle()
    const asked = await service.app.inject(asVisitor({ url: '/api/nights/night-1/changes?since=first.0' }))
    for (const text of [heard(), asked.body]) {
      expect(text).toContain('{"seq":1,"key":"phone-0003"}')
      expect(text).not.toMatch(/"(by|who|payload)":/)
    }
    expect((await service.app.inject(asVisitor({ url }))).statusCode).toBe(403)
    expect((await service.app.inject(asHost({ url }))).json().marks).toMatchObject([{ by: 'host', kind: 'seen' }])
  })
})

describe('the changes', () => {
  it('answer the same by asking', async () => {
    await record('phone-0001')
    const ask = async (query: string, as = asHost) =>
      (await service.app.inject(as({ url: `/api/nights/night-1/changes${query}` }))).json()
    expect(await ask('?since=first.0')).toMatchObject({ version: 'first.1', isSnapshot: false, marks: [{ seq: 1 }] })
    expect(await ask('?since=first.1')).toMatchObject({ marks: [], tourVersion: 1, zone: 'Europe/Berlin' })
    expect(await ask('')).toMatchObject({ isSnapshot: true, marks: [{ seq: 1 }] })
    expect(await ask('?since=first.2')).toMatchObject({ isSnapshot: true, marks: [{ seq: 1 }] })
    expect(await ask('?since=first.0', asVisitor)).toMatchObject({ marks: [{ seq: 1 }] })
    expect(await ask('', asVisitor)).toMatchObject({ isSnapshot: true, marks: [] })
  })
})

describe('the board of open pages', () => {
  it('lets go of a page that does not read, and of no other', async () => {
    const board = liveBoard()
    const event = { id: 'first.1', event: 'marks', data: { text: 'x'.repeat(8_000) } } as const
    const slow = board.open('night-1', PHONE, event)
    const quick = board.open('night-1', PHONE, event).resume()
    const other = board.open('night-2', PHONE, event)
    for (let i = 0; i < 12; i++) {
      board.publish('night-1', event)
      await new Promise((done) => setImmediate(done))
    }
    expect([slow.destroyed, quick.destroyed, other.destroyed]).toEqual([true, false, false])
    expect(board.size).toBe(2)
    board.close()
  })
})
