import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { type Change, lineTo, type Stream } from '../../views/scripts/live.ts'

const CHANGE: Change = { version: 'e.1', isSnapshot: true, marks: [] }

interface FakeStream {
  readonly address: string
  isClosed: boolean
  say(name: string, data?: object, id?: string): void
}

let streams: FakeStream[] = []
let asked: string[] = []
let told: Change[] = []
let answer: Change | null = null
let line: ReturnType<typeof lineTo>

function open(address: string): Stream {
  const runs = new Map<string, (event: { data: string; lastEventId: string }) => void>()
  const stream: FakeStream = {
    address,
    isClosed: false,
    say: (name, data = {}, lastEventId = 'e.1') => runs.get(name)?.({ data: JSON.stringify(data), lastEventId }),
  }
  streams.push(stream)
  return {
    addEventListener: (name, run) => void runs.set(name, run),
    close() {
      stream.isClosed = true
    },
  }
}

beforeEach(() => {
  vi.useFakeTimers()
  streams = []
  asked = []
  told = []
  answer = null
  line = lineTo('n1', {
    open,
    async ask(address) {
      asked.push(address)
      if (answer === null) throw new Error('No answer')
      return answer
    },
    random: () => 0.5,
    version: null,
    told: (change) => void told.push(change),
  })
  line.open()
})
afterEach(() => {
  line.shut()
  vi.useRealTimers()
})

const last = (): FakeStream => {
  const stream = streams.at(-1)
  if (!stream) throw new Error('No stream was opened')
  return stream
}
const wait = (seconds: number) => vi.advanceTimersByTimeAsync(seconds * 1000)

describe('the line of a page', () => {
  it('is one stream, and tells what it hears with the version after it', () => {
    last().say('marks', { ...CHANGE, zone: 'Europe/Zurich' })
    last().say('marks', { marks: [{ key: 'a', seq: 2 }] }, 'e.2')
    last().say('programme', { tourId: 't', version: 2 }, 'e.2')
    last().say('beat')
    expect(told).toEqual([
      { ...CHANGE, zone: 'Europe/Zurich' },
      { version: 'e.2', marks: [{ key: 'a', seq: 2 }] },
      { version: 'e.2', isProgramme: true },
    ])
    expect([streams.length, asked]).toEqual([1, []])
  })

  it('comes back within three seconds of a lost connection, and goes on where it was', async () => {
    last().say('marks', CHANGE, 'e.7')
    last().say('error')
    expect(last().isClosed).toBe(true)
    await wait(1.4)
    expect(streams).toHaveLength(1)
    await wait(0.2)
    expect(streams.map(({ address }) => address)).toEqual(['/api/nights/n1/live', '/api/nights/n1/live?since=e.7'])
    expect(asked).toEqual([])
  })

  it('asks every few seconds once the stream has failed twice, and goes back to it when it works', async () => {
    last().say('error')
    await wait(1.6)
    expect(asked).toEqual([])
    answer = { ...CHANGE, version: 'e.3' }
    last().say('error')
    await wait(0)
    await wait(10.1)
    expect(asked).toEqual([
      '/api/nights/n1/changes',
      '/api/nights/n1/changes?since=e.3',
      '/api/nights/n1/changes?since=e.3',
    ])
    expect(told).toHaveLength(3)
    await wait(7)
    expect(streams).toHaveLength(3)
    expect(last().address).toBe('/api/nights/n1/live?since=e.3')
    last().say('marks', CHANGE, 'e.3')
    asked = []
    await wait(20)
    expect(asked).toEqual([])
  })

  it('asks again within two seconds while no answer comes, and less often once one has', async () => {
    await wait(30.1)
    expect(asked).toHaveLength(1)
    await wait(6)
    const away = asked.length
    // The very first wait is still that of a page in reach.
    expect(away).toBe(2)
    await wait(6)
    expect(asked.length - away).toBe(5)
    answer = { ...CHANGE, version: 'e.5' }
    await wait(1.2)
    const back = asked.length
    expect(told[0]).toEqual(answer)
    await wait(11)
    expect(asked.length - back).toBeLessThanOrEqual(3)
  })

  it('asks when nothing was heard for half a minute, and not while there are heartbeats', async () => {
    for (let i = 0; i < 8; i++) {
      await wait(15)
      last().say('beat')
    }
    expect([streams.length, asked.length]).toEqual([1, 0])
    await wait(29.9)
    expect(asked).toHaveLength(0)
    await wait(0.2)
    expect([last().isClosed, asked.length]).toEqual([true, 1])
    await wait(15)
    expect(streams).toHaveLength(2)
  })

  it('is shut with its page: nothing is open, asked or told, whatever still comes', async () => {
    last().say('error')
    await wait(2)
    last().say('error')
    line.shut()
    const before = [streams.length, asked.length]
    await wait(600)
    expect([streams.length, asked.length]).toEqual(before)
    last().say('marks', CHANGE)
    expect(told).toEqual([])
    expect(streams.every(({ isClosed }) => isClosed)).toBe(true)
    line.open()
    expect(streams).toHaveLength((before[0] ?? 0) + 1)
  })

  it('tries the stream within a second when the phone is back in its network', async () => {
    last().say('error')
    await wait(2)
    last().say('error')
    line.retry()
    await wait(0.6)
    expect(streams).toHaveLength(3)
  })

  it('asks beside the stream when it is back in its network and had come to asking', async () => {
    await wait(31)
    asked = []
    answer = { ...CHANGE, version: 'e.4' }
    line.retry()
    await wait(0.6)
    expect([streams.length, asked.length]).toEqual([2, 1])
    line.shut()
    line.open()
    asked = []
    last().say('marks', CHANGE, 'e.4')
    line.retry()
    await wait(0.6)
    expect(asked).toEqual([])
  })

  it('tells nothing twice when an answer and the stream tell of the same, and nothing that comes too late', async () => {
    const [a, b, c] = ['a', 'b', 'c'].map((key, i) => ({ key, seq: i + 1 }))
    last().say('marks', { isSnapshot: true, marks: [a] }, 'e.1')
    last().say('marks', { isSnapshot: false, marks: [a, b] }, 'e.2')
    last().say('marks', { isSnapshot: false, marks: [a] }, 'e.1')
    last().say('programme', {}, 'e.2')
    last().say('marks', { isSnapshot: false, marks: [b, c] }, 'e.3')
    last().say('marks', { isSnapshot: true, marks: [a] }, 'f.1')
    expect(told.map(({ version, marks }) => [version, marks?.map(({ key }) => key).join('')])).toEqual([
      ['e.1', 'a'],
      ['e.2', 'b'],
      ['e.2', undefined],
      ['e.3', 'c'],
      ['f.1', 'a'],
    ])
  })

  it('takes no word of a stream that it has left', async () => {
    const first = last()
    first.say('error')
    await wait(2)
    first.say('marks', CHANGE)
    expect(told).toEqual([])
  })
})
