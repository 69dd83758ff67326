import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import type { Night } from '../../server/tours/night.ts'
import { draftOf } from '../../server/tours/night-draft.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'

const STEPS = 20_000
const folder = freshFolder()
let desk: Desk
let night: Night
beforeAll(async () => {
  desk = await openDesk(folder, { clock: standingClock(AFTERNOON) })
  night = seedEvening(desk, north)
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

const stationId = (index: number): string => night.stations[index]?.id ?? ''
const build = () => desk.tours.build(night.id, { steps: STEPS })
const stopsAt = (stops: readonly Stop[], index: number) => stops.filter((stop) => stop.stationId === stationId(index))
const clear = () => {
  for (const { id } of desk.wishes.all(night.id)) desk.wishes.takeBack(night.id, id)
}
const pin = (index: number, targetKey: string, startsAt: string, endsAt: string) =>
  desk.wishes.add(night.id, { kind: 'pin', stationId: stationId(index), targetKey, startsAt, endsAt })

describe('a wish of the host', { timeout: SLOW_MS }, () => {
  it('makes the programme of before out of date, and the next one is built around it', async () => {
    const before = await build()
    expect(desk.tours.stateOf(before).isStale).toBe(false)
    const wish = await pin(2, 'ngc884', '18:30', '19:15')
    expect(wish.targetKey).toBe('ngc869')
    expect(desk.tours.stateOf(before).isStale).toBe(true)
    const after = await build()
    expect(after.why).toBe('changed')
    expect(stopsAt(after.stops, 2).map(({ targetKey }) => targetKey)).toContain('ngc869')
    expect(desk.tours.stateOf(after).isStale).toBe(false)
    desk.wishes.takeBack(night.id, wish.id)
    expect(desk.tours.stateOf(before).isStale).toBe(false)
    expect(desk.tours.stateOf(after).isStale).toBe(true)
  })

  it('is kept once, and refused with its reason where it contradicts another or the sky', async () => {
    clear()
    const first = await pin(0, 'moon', '18:00', '19:00')
    expect(await pin(0, 'moon', '18:00', '19:00')).toEqual(first)
    await expect(pin(0, 'saturn', '18:45', '20:00')).rejects.toMatchObject({
      code: 'invalid',
      problems: [{ field: 'targetKey', key: 'wish.two-pins' }],
    })
    await expect(pin(2, 'm42', '18:45', '19:15')).rejects.toMatchObject({
      problems: [{ key: 'wish.pin-skyline' }, { key: 'wish.would-do' }],
    })
    await expect(desk.wishes.add(night.id, { kind: 'ask', targetKey: 'sirius-by-day' })).rejects.toMatchObject({
      problems: [{ key: 'problem.object-unknown' }],
    })
    expect(desk.wishes.all(night.id)).toEqual([first])
    expect(() => desk.wishes.takeBack(night.id, 'nothing')).toThrow('fault.no-wish')
  })

  it('is told with what it costs, once that is reckoned', async () => {
    clear()
    await build()
    await desk.wishes.add(night.id, { kind: 'bar', targetKey: 'saturn' })
    expect((await desk.wishes.told(night.id))[0]).toMatchObject({ conflict: [], isAsleep: false, loss: undefined })
    await vi.waitFor(
      async () => expect((await desk.wishes.told(night.id))[0]?.loss).toMatchObject({ targetKey: 'saturn' }),
      { timeout: SLOW_MS / 2, interval: 100 },
    )
  })

  it('that the night has made impossible leaves the programme of before, and says why', async () => {
    clear()
    await pin(2, 'm42', '20:15', '21:00')
    const good = await build()
    const { horizon, ...site } = night.site
    desk.sites.change(night.site.id, {
      ...site,
      horizon: horizon.map((point) => ({ ...point, altitudeDeg: 60, name: 'hall' })),
    })
    await expect(build()).rejects.toMatchObject({ code: 'conflict', key: 'fault.wishes' })
    expect(desk.tours.current(night.id)).toEqual(good)
    const [told] = await desk.wishes.told(night.id)
    expect(told?.conflict.map(({ code }) => code)).toContain('wish.pin-skyline')
    desk.sites.change(night.site.id, { ...site, horizon })
    expect((await build()).version).toBe(good.version + 1)
  })
})

describe('the hand on a stop', { timeout: SLOW_MS }, () => {
  it('pins it, makes it shorter, and swaps it, in the place of what was wished of it before', async () => {
    clear()
    const { stops } = await build()
    const [stop] = stopsAt(stops, 1)
    const other = stops.find(({ stationId: id }) => id === stationId(3))
    if (!stop || !other) throw new Error('Two stations without a stop')
    const kinds = () => desk.wishes.all(night.id).map(({ kind, targetKey }) => `${kind} ${targetKey}`)
    await desk.wishes.act(night.id, 'keep', stop, null)
    expect(kinds()).toEqual([`pin ${stop.targetKey}`])
    await desk.wishes.act(night.id, 'shorter', stop, null)
    expect(kinds()).toEqual([`pin ${stop.targetKey}`, `bar ${stop.targetKey}`])
    await desk.wishes.act(night.id, 'not-here', stop, null)
    expect(kinds()).toEqual([`bar ${stop.targetKey}`])
    await expect(desk.wishes.act(night.id, 'swap', stop, null)).rejects.toMatchObject({
      problems: [{ field: 'act', key: 'wish.cannot-swap' }],
    })
    await expect(
      desk.wishes.act(night.id, 'keep', { stationId: stationId(1), startsAt: new Date(0) }, null),
    ).rejects.toMatchObject({ key: 'fault.no-stop' })
  })
})

describe('a night that cannot have a programme', { timeout: SLOW_MS }, () => {
  it('keeps the one it has when its telescopes go, or its hours are in full daylight', async () => {
    clear()
    const good = await build()
    const draft = draftOf(night)
    desk.nights.change(night.id, {
      ...draft,
      stations: draft.stations.map((station) => ({ ...station, kind: 'questions', telescopeId: null })),
    })
    await expect(build()).rejects.toMatchObject({ code: 'conflict', key: 'tour.no-telescope' })
    desk.nights.change(night.id, { ...draft, date: '2027-06-12', opens: '14:00', closes: '16:00', visitors: [] })
    await expect(build()).rejects.toMatchObject({ code: 'conflict', key: 'tour.daylight' })
    expect(desk.tours.current(night.id)).toEqual(good)
    desk.nights.change(night.id, draft)
    expect((await build()).stops.length).toBeGreaterThan(3)
  })
})
