import type { Readable } from 'node:stream'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { type LiveBoard, liveBoard } from '../../server/web/live.ts'
import { asHost, asVisitor, PHONE, type TestApp, testApp, WIDE } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await testApp({ limits: { ...WIDE, live: { perAddress: 10, inAll: 10 } } })
  for (const key of ['phone-0001', 'phone-0002']) {
    const mark = { key, kind: 'shown', stationId: 'station-1', payload: { targetKey: 'm13' }, secondsAgo: 0 }
    await service.app.inject(asHost({ method: 'POST', url: '/api/nights/night-1/marks', payload: { marks: [mark] } }))
  }
})
afterAll(() => service.app.close())

async function firstHeard(query: string, lastEventId?: string, as = asVisitor): Promise<string> {
  const headers = lastEventId === undefined ? {} : { 'last-event-id': lastEventId }
  const url = `/api/nights/night-1/live${query}`
  const answer = await service.app.inject({ ...as({ url, headers }), payloadAsStream: true })
  expect(answer.statusCode).toBe(200)
  const heard: string = await new Promise((resolve) => answer.stream().once('data', (data) => resolve(String(data))))
  answer.stream().destroy()
  return heard
}

describe('a page that opens a new stream', () => {
  it('is given only what came after the version that it names', async () => {
    const heard = await firstHeard('?since=first.1')
    expect(heard).toContain('"isSnapshot":false')
    expect(heard).toContain('phone-0002')
    expect(heard).not.toContain('phone-0001')
  })

  it('is given everything when it names a version of another run, and acts', async () => {
    expect(await firstHeard('?since=older.1', undefined, asHost)).toMatch(/"isSnapshot":true.*phone-0001/)
  })

  it('is given what the browser has not heard yet when it takes up a broken stream of an old address', async () => {
    const heard = await firstHeard('?since=first.0', 'first.1')
    expect(heard).toContain('phone-0002')
    expect(heard).not.toContain('phone-0001')
  })

  it('is told how fast the evening runs, as by asking', async () => {
    expect(await firstHeard('?since=first.2')).toContain('"zone":"Europe/Berlin","speed":1}')
    const { body } = await service.app.inject(asVisitor({ url: '/api/nights/night-1/changes?since=first.2' }))
    expect(JSON.parse(body)).toMatchObject({ marks: [], speed: 1, field: { at: expect.any(String) } })
  })

  it('is refused a version that is none', async () => {
    const answer = await service.app.inject(asVisitor({ url: '/api/nights/night-1/live?since=nothing' }))
    expect(answer.statusCode).toBe(422)
  })
})

describe('the heartbeat', () => {
  const first = { id: 'first.1', event: 'marks', data: {} } as const
  const beatsOf = (reader: Readable): number =>
    String(reader.read() ?? '').match(/event: beat\ndata:\n\n/g)?.length ?? 0
  const onClock = (run: (board: LiveBoard) => void): void => {
    vi.useFakeTimers()
    const board = liveBoard()
    try {
      run(board)
    } finally {
      board.close()
      vi.useRealTimers()
    }
  }

  it('is an event that every page hears, four times a minute', () => {
    onClock((board) => {
      const reader = board.open('night-1', PHONE, first)
      vi.advanceTimersByTime(60_000)
      expect(beatsOf(reader)).toBe(4)
    })
  })

  it('is left out on pages that have heard something else in the last quarter of a minute', () => {
    onClock((board) => {
      const [told, other] = [board.open('night-1', PHONE, first), board.open('night-2', PHONE, first)]
      for (let second = 0; second < 60; second += 10) {
        vi.advanceTimersByTime(10_000)
        board.publish('night-1', { id: 'first.2', event: 'marks', data: {} })
      }
      expect([beatsOf(told), beatsOf(other)]).toEqual([0, 4])
    })
  })

  it('reaches two thousand quiet pages within twenty-five seconds, fifty at a time', () => {
    onClock((board) => {
      const pages = Array.from({ length: 2_000 }, () => board.open('night-1', PHONE, first))
      expect(pages.map(beatsOf).every((beats) => beats === 0)).toBe(true)
      vi.advanceTimersByTime(15_000)
      expect(pages.filter((page) => beatsOf(page) === 1)).toHaveLength(50)
      vi.advanceTimersByTime(9_750)
      expect(pages.filter((page) => beatsOf(page) === 1)).toHaveLength(1_950)
    })
  })
})
