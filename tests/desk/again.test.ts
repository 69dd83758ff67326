import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import type { MarkKind } from '../../server/tours/mark.ts'
import type { Night } from '../../server/tours/night.ts'
import { draftOf } from '../../server/tours/night-draft.ts'
import type { Stop, Tour } from '../../server/tours/tour.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'

const STEPS = 40_000
const folder = freshFolder()
const clock = standingClock(AFTERNOON)
let desk: Desk
let night: Night
let first: Tour
beforeAll(async () => {
  desk = await openDesk(folder, { clock })
}, SLOW_MS)
beforeEach(async () => {
  clock.moveTo(AFTERNOON)
  night = seedEvening(desk, north)
  first = await desk.tours.build(night.id, { steps: STEPS })
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

let marked = 0
function tell(kind: MarkKind, payload: Record<string, unknown>, stationId: string | null = null) {
  marked += 1
  const key = `key-of-mark-${marked}`
  desk.marks.record(night.id, [{ key, kind, stationId, payload, secondsAgo: 0 }], 'host', 'host')
  return key
}
const at = (wall: string): Date => new Date(`2026-12-17T${wall}:00+01:00`)
const now = (wall: string): void => clock.moveTo(at(wall).toISOString())
const heldAt = (when: Date) => (tour: Tour) =>
  tour.stops.filter(({ startsAt, endsAt }) => startsAt <= when && when < endsAt).map(({ targetKey }) => targetKey)

describe('a programme made again during the night', { timeout: SLOW_MS }, () => {
  it('waits beside the old one until it is accepted or dropped, and every version is kept', async () => {
    now('18:22')
    tell('clouds', { shut: ['sw', 'w', 'nw'], minutes: null })
    expect(desk.tours.stateOf(first).isStale).toBe(true)
    const second = await desk.tours.build(night.id)
    expect(second).toMatchObject({ version: 2, why: 'changed', tookOverAtSeq: null })
    expect(desk.tours.current(night.id)).toEqual(first)
    expect(desk.tours.stateOf(second)).toMatchObject({ isCurrent: false, isStale: false, waiting: { id: second.id } })
    tell('dropped', { tourId: second.id })
    expect(desk.tours.stateOf(first)).toMatchObject({ isCurrent: true, waiting: null })
    const third = await desk.tours.build(night.id)
    expect(third.stops).toEqual(second.stops)
    tell('accepted', { tourId: third.id })
    expect(desk.tours.stateOf(third)).toMatchObject({ isCurrent: true, isStale: false, waiting: null })
    expect(desk.tours.versions(night.id).map(({ version }) => version)).toEqual([1, 2, 3])
    expect([desk.tours.version(night.id, 1), desk.tours.version(night.id, 2)]).toEqual([first, second])
  })

  it('is shown in the field as it says once it is accepted, without anyone acting', async () => {
    now('18:22')
    tell('clouds', { shut: ['sw', 'w', 'nw'], minutes: null })
    const { id, stops } = await desk.tours.build(night.id)
    tell('accepted', { tourId: id })
    for (const wall of ['18:24', '19:10', '20:40']) {
      now(wall)
      const shown = desk.marks.field(night.id).stations.flatMap(({ showing }) => showing?.targetKey ?? [])
      expect(shown).toEqual(heldAt(at(wall))({ ...first, stops }))
    }
    const [big] = desk.marks.field(night.id).stations.filter(({ stationId }) => stationId === night.stations[2]?.id)
    expect(big?.shown[0]).toMatchObject({ targetKey: 'm57', fromAt: at('18:00'), toAt: at('18:22') })
  })

  it('is out of date again when the clouds of an hour have gone, or a station has left', async () => {
    now('18:22')
    tell('clouds', { shut: ['w'], minutes: 60 })
    const second = await desk.tours.build(night.id)
    tell('accepted', { tourId: second.id })
    now('19:21')
    expect(desk.tours.stateOf(second).isStale).toBe(false)
    now('19:22')
    expect(desk.tours.stateOf(second).isStale).toBe(true)
    tell('clouds', { shut: ['w'], minutes: 60 })
    expect(desk.tours.stateOf(second).isStale).toBe(false)
    tell('station', { is: 'out' }, night.stations[1]?.id ?? null)
    expect(desk.tours.stateOf(second).isStale).toBe(true)
  })

  it('begins late when the host moves the opening, with what was held for the first half hour', async () => {
    now('18:05')
    const draft = draftOf(night)
    desk.nights.change(night.id, { ...draft, opens: '18:30', visitors: draft.visitors.slice(1) })
    const late = await desk.tours.build(night.id)
    expect(late.tookOverAtSeq).toBeNull()
    const ahead = late.stops.filter(({ endsAt }) => endsAt > at('18:05'))
    expect(ahead.length).toBeGreaterThan(3)
    expect(heldAt(at('18:31'))(late)).toEqual(heldAt(at('18:31'))(first))
    expect(late.stops.filter(({ startsAt }) => startsAt > at('18:05') && startsAt < at('18:30'))).toEqual([])
  })

  it('ends when the host moves the end, and what is over by then stays as it was', async () => {
    now('19:20')
    const draft = draftOf(night)
    const visitors = draft.visitors.filter(({ startsAt }) => startsAt < '20:15')
    desk.nights.change(night.id, { ...draft, closes: '20:15', visitors })
    const short = await desk.tours.build(night.id)
    expect(Math.max(...short.stops.map(({ endsAt }) => endsAt.getTime()))).toBe(at('20:15').getTime())
    const over = ({ stops }: { stops: readonly Stop[] }) => stops.filter(({ endsAt }) => endsAt <= at('19:20'))
    expect(over(short)).toEqual(over(first))
    desk.nights.change(night.id, { ...draft, closes: '21:30' })
    const long = await desk.tours.build(night.id)
    expect(Math.max(...long.stops.map(({ endsAt }) => endsAt.getTime()))).toBe(at('21:30').getTime())
    expect(heldAt(at('19:45'))(long)).toEqual(heldAt(at('19:45'))(first))
  })

  it('counts what an operator has shown already', async () => {
    const twin = night.stations[3]?.id ?? null
    now('18:01')
    tell('showing', { targetKey: 'm15', aim: 'whole' }, twin)
    now('18:59')
    tell('showing', { targetKey: 'ngc869', aim: 'whole' }, twin)
    now('19:01')
    const { stops } = await desk.tours.build(night.id)
    const looksAtIt = (all: readonly Stop[]) =>
      all
        .filter((stop) => stop.targetKey === 'm15' && stop.startsAt >= at('19:00'))
        .reduce((sum, { looks }) => sum + looks, 0)
    expect(looksAtIt(first.stops)).toBeGreaterThan(0)
    expect(looksAtIt(stops)).toBeLessThan(looksAtIt(first.stops))
  })

  it('leaves the hand of the host above the half hour that is held, and the clouds above both', async () => {
    now('18:22')
    const stationId = night.stations[3]?.id ?? ''
    await desk.wishes.add(night.id, { kind: 'pin', stationId, targetKey: 'ngc869', startsAt: '18:30', endsAt: '19:00' })
    const pinned = await desk.tours.build(night.id)
    expect(heldAt(at('18:40'))(pinned)).toContain('ngc869')
    tell('clouds', { shut: ['n', 'ne', 'e', 'nw', 'overhead'], minutes: null })
    expect(heldAt(at('18:40'))(await desk.tours.build(night.id))).not.toContain('ngc869')
  })
})
