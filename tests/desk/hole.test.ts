import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { nightHours } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import { draftOf } from '../../server/tours/night-draft.ts'
import { SKY_PARTS } from '../../server/tours/sky-part.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'
import { A_PHONE, THE_HOST } from '../support/join-data.ts'

const folder = freshFolder()
let desk: Desk
let night: Night
beforeAll(async () => {
  desk = await openDesk(folder)
  night = seedEvening(desk, north)
  await desk.tours.build(night.id, { steps: 60 })
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

const programme = () => {
  const tour = desk.tours.current(night.id)
  if (!tour) throw new Error('The night has a programme')
  return tour
}

/** Turns of the thread that serves the pages while a promise is waited for. */
async function turnsDuring(promise: Promise<unknown>): Promise<number> {
  let [turns, isDone] = [0, false]
  promise.finally(() => {
    isDone = true
  })
  while (!isDone) {
    await new Promise((resolve) => setTimeout(resolve, 1))
    turns++
  }
  return turns
}

describe('a cloud hole at the desk', () => {
  it(
    'lists things for every telescope, needs no programme, and stays near its evening',
    async () => {
      const bare = seedEvening(desk, north)
      const { opensAt } = nightHours(bare)
      const hole = await desk.hole(bare.id, SKY_PARTS, new Date(0))
      expect(hole.at).toEqual(new Date(opensAt.getTime() - 1_800_000))
      const open = await desk.hole(bare.id, SKY_PARTS, new Date(opensAt.getTime() + 3_600_000))
      expect(open.stations.map(({ lines }) => lines.length)).toEqual(bare.stations.map(() => 3))
      await expect(desk.hole('none', SKY_PARTS, opensAt)).rejects.toMatchObject({ key: 'fault.no-night' })
    },
    SLOW_MS,
  )
})

describe('missing showpieces at the desk', () => {
  it(
    'are worked out away from the thread that serves the pages, and once for the same programme and night',
    async () => {
      const first = desk.missing(programme())
      expect(desk.missing(programme())).toBe(first)
      expect(await turnsDuring(first)).toBeGreaterThan(5)
      const missing = await first
      expect(missing.length).toBeGreaterThan(1)
      const shown = programme().stops.map(({ targetKey }) => targetKey)
      expect(missing.filter(({ targetKey }) => shown.includes(targetKey))).toEqual([])
      desk.nights.change(night.id, { ...draftOf(night), settings: { ...night.settings, stayMin: 60 } })
      expect(desk.missing(programme())).not.toBe(first)
      await desk.missing(programme())
    },
    SLOW_MS,
  )
})

describe('whether a night takes place', () => {
  const phone = { ...A_PHONE, role: 'host-phone' as const }

  it('is decided by people, kept beside what was proposed, and never written over', () => {
    const { id } = seedEvening(desk, north)
    desk.go.enter(id, { cloud: 20, wind: 5 }, THE_HOST)
    desk.go.decide(id, 'on', '  Clear   sky. ', THE_HOST)
    desk.go.enter(id, { cloud: 90, thunder: 1 }, phone)
    desk.go.decide(id, 'off', '', phone)
    const { readings, decisions, proposal } = desk.go.of(id)
    expect(proposal).toMatchObject({ state: 'off', because: ['cloud', 'thunder'] })
    expect(readings.map(({ kind, value, enteredBy }) => [kind, value, enteredBy])).toEqual([
      ['thunder', 1, 'host-phone'],
      ['cloud', 90, 'host-phone'],
      ['wind', 5, 'host'],
      ['cloud', 20, 'host'],
    ])
    expect(decisions.map(({ state, proposed, why, decidedName }) => [state, proposed, why, decidedName])).toEqual([
      ['off', 'off', '', 'Ada'],
      ['on', 'on', 'Clear sky.', 'host'],
    ])
    expect(desk.nights.find(id).state).toBe('off')
    expect(desk.nights.current()?.id).not.toBe(id)
  })

  it('keeps plan, sentence and limits, and drops a sentence for what is no longer so', () => {
    const night = seedEvening(desk, north)
    const plan = { ...desk.go.of(night.id).plan, decidesAt: '14:00', nextWordWhere: 'our website' }
    desk.go.decide(night.id, 'doubtful', '', THE_HOST)
    desk.go.plan(night.id, plan)
    desk.go.write(night.id, ' Ask at\nthe gate. ')
    expect(desk.go.of(night.id)).toMatchObject({ plan, written: { text: 'Ask at the gate.', holds: true } })
    desk.nights.change(night.id, { ...draftOf(night), title: 'Another evening' })
    expect(desk.go.of(night.id).written?.holds).toBe(false)
    expect(desk.nights.find(night.id).state).toBe('doubtful')
    const limits = { ...desk.go.limits(), wind: { doubtful: 3, off: 4 } }
    desk.go.keepLimits(limits)
    desk.go.enter(night.id, { wind: 5 }, THE_HOST)
    expect(desk.go.of(night.id).proposal.state).toBe('off')
    expect(() => desk.go.enter(night.id, { wind: -5 }, THE_HOST)).toThrow()
    expect(() => desk.go.write(night.id, 'x'.repeat(601))).toThrow()
  })

  it(
    'has the evening under thin cloud from the worker, once, beside the programme that holds',
    async () => {
      const before = programme()
      const thin = await desk.go.thinCloud(night.id)
      expect(await desk.go.thinCloud(night.id)).toBe(thin)
      const kinds = thin.stops.map(({ targetKey }) => desk.objects.show(targetKey)?.kind)
      expect(new Set(kinds)).toEqual(new Set(['moon', 'planet']))
      expect(programme()).toEqual(before)
    },
    SLOW_MS,
  )
})
