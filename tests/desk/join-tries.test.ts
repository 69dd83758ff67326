import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { DEFAULT_JOIN_LIMITS, joinTries } from '../../server/desk/join-tries.ts'
import { Fault } from '../../server/errors.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'

const MINUTE_MS = 60_000

describe('wrong codes', () => {
  let nowMs = 0
  const gate = () => joinTries(DEFAULT_JOIN_LIMITS, () => nowMs)

  it('make their address wait after five in a minute, ever longer, to a minute at most', () => {
    const tries = gate()
    for (let i = 0; i < 5; i++) {
      expect(tries.waitMs('a')).toBe(0)
      tries.wrong('a')
    }
    const waits: number[] = []
    for (let i = 0; i < 5; i++) {
      waits.push(tries.waitMs('a'))
      tries.wrong('a')
    }
    expect(waits).toEqual([7_500, 15_000, 30_000, 60_000, 60_000])
    nowMs += 60_000
    expect(tries.waitMs('a')).toBe(0)
  })

  it('keep nobody else waiting, not even one who has mistyped once', () => {
    const tries = gate()
    for (let i = 0; i < 30; i++) tries.wrong(`attacker-${i % 3}`)
    expect(tries.waitMs('attacker-0')).toBeGreaterThan(0)
    expect(tries.waitMs('honest')).toBe(0)
    tries.wrong('honest')
    expect(tries.waitMs('honest')).toBe(0)
  })

  it('are forgotten by the right one, and after ten minutes', () => {
    const tries = gate()
    for (let i = 0; i < 40; i++) tries.wrong('a')
    expect(tries.waitMs('a')).toBe(60_000)
    tries.right('a')
    expect(tries.waitMs('a')).toBe(0)
    for (let i = 0; i < 40; i++) tries.wrong('b')
    nowMs += DEFAULT_JOIN_LIMITS.forgetMs
    expect(tries.waitMs('b')).toBe(0)
  })

  it('take a bounded room: of more than five thousand addresses the oldest is let go', () => {
    const tries = gate()
    for (let i = 0; i < 10; i++) tries.wrong('first')
    for (let i = 1; i < 5_000; i++) tries.wrong(`address-${i}`)
    expect(tries.waitMs('first')).toBeGreaterThan(0)
    tries.wrong('address-5000')
    expect(tries.waitMs('first')).toBe(0)
  })
})

describe('an attack from fifty addresses for ten hours', () => {
  const ADDRESSES = Array.from({ length: 50 }, (_, i) => `127.0.3.${i + 1}`)
  /** Ten hours with MINUTES=600. */
  const MINUTES = Number(process.env.MINUTES ?? 150)
  const STEP_MS = 10_000
  const ROOM = 32 ** 8
  const folder = freshFolder()
  let nowMs = Date.UTC(2026, 11, 17, 12)
  let desk: Desk
  let nightId = ''
  beforeAll(async () => {
    desk = await openDesk(folder, { nowMs: () => nowMs })
    nightId = seedEvening(desk, north).id
  }, SLOW_MS)
  afterAll(async () => {
    await desk.close()
    removeFolder(folder)
  })

  const join = (secret: string, address: string) =>
    desk.joins.join({ secret, name: 'Ada', role: 'operator', phoneMs: null, address })

  /** True when the laptop looked at the code at all. */
  function isEvaluated(address: string): boolean {
    try {
      join('ZZZZZZZZ', address)
      return true
    } catch (error) {
      if (error instanceof Fault && error.key === 'fault.wrong-code') return true
      if (error instanceof Fault && error.key === 'fault.too-many-codes') return false
      throw error
    }
  }

  it('gets thirty codes a minute looked at, and keeps no honest phone out', { timeout: 120_000 }, () => {
    const perMinute: number[] = []
    let honest = 0
    for (let minute = 0; minute < MINUTES; minute++) {
      let evaluated = 0
      for (let ms = 0; ms < MINUTE_MS; ms += STEP_MS) {
        evaluated += ADDRESSES.filter(isEvaluated).length
        nowMs += STEP_MS
      }
      perMinute.push(evaluated)
      const address = `192.168.50.${(minute % 200) + 1}`
      if (minute % 3 === 0) expect(isEvaluated(address)).toBe(true)
      const { phone } = join(desk.joins.codes(nightId).code, address)
      expect(phone.isConfirmed).toBe(true)
      desk.joins.revoke(nightId, phone.id)
      honest++
    }
    const all = perMinute.reduce((sum, count) => sum + count, 0)
    const tens = Array.from({ length: MINUTES - 9 }, (_, at) =>
      perMinute.slice(at, at + 10).reduce((sum, count) => sum + count, 0),
    )
    console.log(
      `${all} codes looked at in ${MINUTES} minutes: ${(all / MINUTES).toFixed(1)} a minute, ` +
        `${Math.max(...perMinute)} in the fullest minute, ${Math.max(...tens)} in the fullest ten; ` +
        `${honest} of ${MINUTES} honest phones in; odds for one code ${(all / ROOM).toExponential(1)}`,
    )
    expect(all / MINUTES).toBeLessThanOrEqual(30)
    expect(Math.max(...tens)).toBeLessThanOrEqual(300)
    expect(all / ROOM).toBeLessThan(1e-6)
    expect(honest).toBe(MINUTES)
  })
})
