import { expect, it } from 'vitest'
import { realClock, rehearsalClock } from '../server/clock.ts'

const wait = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms))

it('shows the laptop’s own time when nothing is rehearsed', () => {
  const clock = realClock()
  expect(Math.abs(clock.now().getTime() - Date.now())).toBeLessThan(1000)
  expect(clock.isRehearsal).toBe(false)
})

it('starts a rehearsal at the given instant and runs it as fast as asked', async () => {
  const startsAt = new Date('2026-12-17T17:20:00Z')
  const clock = rehearsalClock(startsAt, 100)
  await wait(50)
  const passedMs = clock.now().getTime() - startsAt.getTime()
  expect(passedMs).toBeGreaterThan(4000)
  expect(passedMs).toBeLessThan(600_000)
  expect(clock.isRehearsal).toBe(true)
})

it('can hold a rehearsal still', async () => {
  const clock = rehearsalClock(new Date('2026-12-17T17:20:00Z'), 0)
  await wait(5)
  expect(clock.now().toISOString()).toBe('2026-12-17T17:20:00.000Z')
})
