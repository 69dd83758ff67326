import { describe, expect, it } from 'vitest'
import { newKey, type Outbox } from '../../views/scripts/outbox.ts'
import { json, keepsAll, keysIn, answeredPhone as phone, refuses } from './phones-answered.ts'

const MINUTE_MS = 60_000
const refusedIn = (box: Outbox) => box.refused().map(({ key, now }) => [key, now.reason])

describe('a tap', () => {
  it('waits until an answer names it, whatever else the answer is', async () => {
    const own = phone()
    own.tap('a')
    const answers = [
      () => new Response('', { status: 507 }),
      () => new Response('<h1>Welcome</h1>'),
      () => new Response('{"kept": [{"ke'),
      () => new Response('null'),
      () => json({ kept: 5 }),
      () => json({ kept: [] }),
      () => json({}, 422),
      keepsAll('e.1'),
    ]
    for (const [place, answer] of answers.entries()) {
      expect(own.box.count(), String(place)).toBe(1)
      own.answers(answer)
      await own.box.send()
    }
    expect(own.box.count()).toBe(0)
    expect(keysIn(own)).toEqual(answers.map(() => ['a']))
  })

  it('is sent with those before it, oldest first, even when the clock of the phone was set back', async () => {
    const own = phone()
    own.tap('b', { doneAtMs: 5 * MINUTE_MS })
    own.tap('a', { doneAtMs: 4 * MINUTE_MS })
    own.pass(6 * MINUTE_MS)
    own.answers(keepsAll('e.2'))
    expect(await own.box.send()).toEqual({ outcome: 'sent', named: 2, version: 'e.2' })
    expect(own.requests[0]).toMatchObject([
      { key: 'b', secondsAgo: 60 },
      { key: 'a', secondsAgo: 120 },
    ])
  })

  it.each([
    [401, 'joinAgain'],
    [403, 'joinAgain'],
    [421, 'address'],
    [429, 'waiting'],
    [503, 'waiting'],
  ])('waits on an answer of %i, which is told as %s', async (status, outcome) => {
    const own = phone()
    own.tap('a')
    own.answers(() => json({}, status))
    expect(await own.box.send()).toMatchObject({ outcome, named: 0 })
    expect(own.box.count()).toBe(1)
  })

  it('outlives its page, and one page never writes over what another one keeps', () => {
    const one = phone()
    const other = phone({ shelf: one.shelf })
    one.tap('a')
    other.tap('b')
    one.tap('c')
    expect(phone({ shelf: one.shelf }).box.count()).toBe(3)
  })

  it('that is refused is set apart with its reason until it is dropped, and those beside it are kept', async () => {
    const own = phone()
    for (const key of ['a', 'b']) own.tap(key)
    own.answers(refuses('problem.station-unknown', (key) => key === 'b'))
    expect(await own.box.send()).toMatchObject({ outcome: 'failed', named: 2 })
    expect([own.box.count(), refusedIn(own.box)]).toEqual([0, [['a', 'No.']]])
    own.box.drop('a')
    expect(refusedIn(own.box)).toEqual([])
  })

  it('is set apart by its place when nothing sent with it is kept', async () => {
    const own = phone()
    for (const key of ['a', 'b']) own.tap(key)
    const problems = [
      { field: 'marks.1.kind', code: 'x', message: 'Not this.' },
      { field: 'marks.1.payload', code: 'y', message: 'Nor that.' },
    ]
    own.answers(() => json({ error: { problems } }, 422))
    expect(await own.box.send()).toMatchObject({ outcome: 'waiting', named: 1 })
    expect(refusedIn(own.box)).toEqual([['b', 'Not this. Nor that.']])
  })

  it('waits no more when another page of the phone has brought it in while an answer was lost', async () => {
    const own = phone()
    const other = phone({ shelf: own.shelf })
    own.tap('a')
    other.answers(keepsAll('e.1'))
    own.answers(async () => {
      await other.box.send()
      return json({}, 503)
    })
    expect(await own.box.send()).toEqual({ outcome: 'sent', named: 0, version: null })
  })

  it('that was dropped while it was under way does not come back', async () => {
    const own = phone()
    own.tap('a')
    own.answers((sent) => {
      own.box.drop('a')
      return refuses('x')(sent)
    })
    await own.box.send()
    expect([own.box.count(), refusedIn(own.box)]).toEqual([0, []])
  })

  it('goes its plain way when the phone is full, but not before what the laptop has makes room', async () => {
    const own = phone({ room: 600 })
    own.answers(keepsAll('e.1'))
    for (const key of ['a', 'b', 'c']) {
      own.tap(key)
      await own.box.send()
    }
    own.tap('d')
    own.tap('e')
    expect(() => {
      for (const key of ['f', 'g', 'h']) own.tap(key)
    }).toThrow()
    expect(own.box.count()).toBeGreaterThanOrEqual(2)
  })
})

describe('a laptop that was put back to a backup', () => {
  async function withKept(keys: readonly string[]) {
    const own = phone()
    own.answers(keepsAll('one.9'))
    for (const key of keys) own.tap(key)
    await own.box.send()
    own.requests.length = 0
    return own
  }

  it('is offered again what it no longer has, and nothing else', async () => {
    const own = await withKept(['a', 'b'])
    expect(own.box.isOfRun('one.9')).toBe(true)
    expect(own.box.isOfRun('two.3')).toBe(false)
    expect(own.box.offerAgain('one.9', new Set())).toBe(0)
    expect(own.box.offerAgain('two.3', new Set(['a']))).toBe(1)
    own.answers(keepsAll('two.4'))
    await own.box.send()
    expect(keysIn(own)).toEqual([['b']])
    expect(own.box.isOfRun('two.4')).toBe(true)
    expect(own.box.offerAgain('two.4', new Set(['a', 'b']))).toBe(0)
  })

  it('is offered nothing after a quarter of an hour', async () => {
    const own = await withKept(['a'])
    own.pass(14 * MINUTE_MS)
    expect(own.box.offerAgain('one.9', new Set())).toBe(0)
    own.pass(2 * MINUTE_MS)
    expect(own.box.offerAgain('two.1', new Set())).toBe(0)
    expect(own.shelf.length).toBe(0)
  })

  it('is offered an undo again until the phone whose act it takes back has come, but not for ever', async () => {
    const own = await withKept(['undo'])
    own.box.offerAgain('two.1', new Set())
    own.answers(refuses('problem.mark-unknown'))
    expect(await own.box.send()).toMatchObject({ outcome: 'waiting', named: 0 })
    own.pass(31 * MINUTE_MS)
    expect(await own.box.send()).toMatchObject({ outcome: 'failed', named: 1 })
  })
})

it('gives keys that the laptop takes, each another one', () => {
  const keys = Array.from({ length: 1_000 }, newKey)
  expect(new Set(keys).size).toBe(1_000)
  for (const key of keys) expect(key).toMatch(/^[A-Za-z0-9_-]{8,60}$/)
})
