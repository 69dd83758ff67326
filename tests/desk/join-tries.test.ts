import { describe, expect, it } from 'vitest'
import { DEFAULT_JOIN_LIMITS, joinTries } from '../../server/desk/join-tries.ts'

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

  it('keep nobody else waiting, not even one who has mistyped twice', () => {
    const tries = gate()
    for (let i = 0; i < 30; i++) tries.wrong(`attacker-${i % 3}`)
    expect(tries.waitMs('attacker-0')).toBeGreaterThan(0)
    for (let slip = 0; slip < 2; slip++) {
      expect(tries.waitMs('honest')).toBe(0)
      tries.wrong('honest')
    }
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

  it('cannot be saved up: of addresses that come again ten have tries of their own in a minute', () => {
    const tries = gate()
    const addresses = Array.from({ length: 50 }, (_, i) => `attacker-${i}`)
    for (const address of addresses) tries.wrong(address)
    nowMs += DEFAULT_JOIN_LIMITS.forgetMs
    const triedNow = () =>
      addresses.filter((address) => {
        const mayTry = tries.waitMs(address) === 0
        if (mayTry) tries.wrong(address)
        return mayTry
      })
    expect(triedNow()).toHaveLength(10)
    expect(tries.waitMs('new')).toBe(0)
    nowMs += 59_999
    expect(triedNow()).toHaveLength(0)
    nowMs += 1
    expect(triedNow()).toHaveLength(10)
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
