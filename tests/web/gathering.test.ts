import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Told } from '../../server/tours/again-marks.ts'
import { gathering } from '../../server/web/gathering.ts'
import { announcing, liveBoard } from '../../server/web/live.ts'
import { fakeDesk } from '../support/fake-desk.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { PHONE } from '../support/web.ts'

const MOMENT_MS = 100
const FIRST = { id: 'first.0', event: 'marks', data: { marks: [] } } as const

beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] }))
afterEach(() => void vi.useRealTimers())

/** A desk that tells a board, and what one page of the night hears. */
function told() {
  const live = liveBoard()
  const desk = announcing(fakeDesk().desk, live)
  const listen = () => {
    const page = live.open('night-1', PHONE, FIRST)
    return () =>
      [...String(page.read() ?? '').matchAll(/^id: (\S+)\nevent: (\S+)\ndata: (.*)$/gm)].slice(1).map(eventOf)
  }
  const act = (key: string) =>
    desk.marks.record(
      'night-1',
      [{ key, kind: 'shown', stationId: 'station-1', payload: { targetKey: 'm13' }, secondsAgo: 0 }],
      'Ada',
      'operator',
    )
  return { live, desk, listen, act }
}

const CLOUDS_IN_THE_WEST: Told = {
  key: 'told-by-the-host',
  shut: ['w'],
  minutes: 30,
  out: [],
  timed: null,
  adults: null,
  children: null,
  opens: A_NIGHT.opens,
  closes: A_NIGHT.closes,
}

const eventOf = ([, id = '', event = '', data = '']: RegExpMatchArray) => ({ id, event, keys: keysIn(data) })
const keysIn = (data: string): string[] => (JSON.parse(data).marks ?? []).map(({ key }: { key: string }) => key)

describe('acts of the same moment', () => {
  it('are told in one event, each once, with the version after the last', () => {
    const { listen, act } = told()
    const heard = listen()
    for (const key of ['first-act', 'second-act', 'third-act']) act(key)
    expect(vi.getTimerCount()).toBe(1)
    vi.advanceTimersByTime(MOMENT_MS)
    expect(heard()).toEqual([{ id: 'first.3', event: 'marks', keys: ['first-act', 'second-act', 'third-act'] }])
  })

  it('are told once although the phone sends them again', () => {
    const { listen, act } = told()
    const heard = listen()
    act('first-act')
    vi.advanceTimersByTime(MOMENT_MS)
    act('first-act')
    vi.advanceTimersByTime(MOMENT_MS)
    expect(heard()).toEqual([{ id: 'first.1', event: 'marks', keys: ['first-act'] }])
  })

  it('come before a programme that is built meanwhile', async () => {
    const { desk, listen, act } = told()
    const heard = listen()
    act('first-act')
    await desk.tours.build('night-1')
    expect(heard().map(({ event }) => event)).toEqual(['marks', 'programme'])
  })

  it('are not told to a page that opens in between and has them in its first event', () => {
    const { listen, act } = told()
    const early = listen()
    act('first-act')
    const late = listen()
    vi.advanceTimersByTime(MOMENT_MS)
    expect([early().length, late().length]).toEqual([1, 0])
  })

  it('are told of when the host tells them by a change of plan', () => {
    const { desk, listen } = told()
    const heard = listen()
    desk.again.tell('night-1', CLOUDS_IN_THE_WEST, 'host')
    vi.advanceTimersByTime(MOMENT_MS)
    expect(heard()).toMatchObject([{ event: 'marks' }])
  })
})

describe('news that cannot be made', () => {
  it('stops neither the service nor the news after it', () => {
    const complaint = vi.spyOn(console, 'error').mockImplementation(() => {})
    const sent: string[] = []
    const news = gathering((nightId, event: string) => sent.push(`${nightId} ${event}`))
    news.soon('night-1', () => {
      throw new Error('the disk is gone')
    })
    vi.advanceTimersByTime(MOMENT_MS)
    news.soon('night-1', () => 'an act')
    vi.advanceTimersByTime(MOMENT_MS)
    expect(sent).toEqual(['night-1 an act'])
    expect(complaint).toHaveBeenCalledOnce()
    complaint.mockRestore()
  })

  it('is none once the service closes', () => {
    const news = gathering(() => {
      throw new Error('told after the end')
    })
    news.soon('night-1', () => 'an act')
    news.close()
    expect(vi.getTimerCount()).toBe(0)
  })
})
