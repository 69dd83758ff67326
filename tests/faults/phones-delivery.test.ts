import { describe, expect, it } from 'vitest'
import { delivery } from '../../views/scripts/delivery.ts'
import { keepsAll, answeredPhone as phone } from './phones-answered.ts'

describe('the delivery', () => {
  function delivered(own: ReturnType<typeof phone>, chance = 0) {
    const waits: number[] = []
    const later = (ms: number, run: () => Promise<void>) => {
      waits.push(ms)
      next = run
      return () => {
        next = undefined
      }
    }
    let next: (() => Promise<void>) | undefined
    const { deliver, deliverAfresh } = delivery(own.box, { random: () => chance, later, told: () => {} })
    return { waits, deliver, deliverAfresh, next: () => next?.() }
  }

  it.each([
    [0, [500, 1_000, 2_000, 4_000, 8_000, 15_000, 15_000]],
    [1, [1_000, 2_000, 4_000, 8_000, 16_000, 30_000, 30_000]],
  ])('waits longer each time, half of it by chance (%d)', async (chance, waits) => {
    const own = phone()
    own.tap('a')
    const run = delivered(own, chance)
    await run.deliver()
    for (let i = 1; i < waits.length; i++) await run.next()
    expect(run.waits).toEqual(waits)
    await run.deliverAfresh()
    expect(run.waits.at(-1)).toBe(waits[0])
  })

  it('sends fifty at a time, one sending after the other, and what is tapped meanwhile right after', async () => {
    const own = phone()
    for (let i = 0; i < 120; i++) own.tap(`key-${String(i).padStart(3, '0')}`)
    const run = delivered(own)
    own.answers(keepsAll('e.1'))
    await Promise.all([run.deliver(), run.deliver()])
    own.tap('late')
    await run.next()
    await run.next()
    expect(own.requests.map(({ length }) => length)).toEqual([50, 50, 21])
    expect(run.waits).toEqual([0, 0])
    expect(own.box.count()).toBe(0)
  })
})
