import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { south } from '../../seed-demo/south.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { nightHours } from '../../server/tours/hours.ts'
import type { MarkDraft, MarkKind } from '../../server/tours/mark.ts'
import type { Night, NightDraft } from '../../server/tours/night.ts'
import { draftOf } from '../../server/tours/night-draft.ts'
import type { Stop, Tour } from '../../server/tours/tour.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'

const STEPS = 60
const IN_THE_EVENING = new Date('2026-12-17T17:20:00Z')
const FAR_AT = new Date('2999-01-01T00:00:00Z')
const folder = freshFolder()
const clock = standingClock(AFTERNOON)
let desk: Desk
let night: Night
let tour: Tour
beforeAll(async () => {
  desk = await openDesk(folder, { clock })
  night = seedEvening(desk, north)
  tour = await desk.tours.build(night.id, { steps: STEPS })
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

/** A stop with the places in the row in place of ids, so that two copies of a night can be laid side by side. */
const stopsOf = ({ stops }: Tour, { stations }: Night) =>
  stops.map(({ stationId, setups: _setups, ...stop }: Stop) => ({
    ...stop,
    place: stations.findIndex(({ id }) => id === stationId),
  }))

describe('a programme', () => {
  it('gives every telescope something to show within the public hours', () => {
    const { opensAt, closesAt } = nightHours(night)
    for (const { id } of night.stations) expect(tour.stops.map(({ stationId }) => stationId)).toContain(id)
    for (const { startsAt, endsAt } of tour.stops) {
      expect(startsAt >= opensAt && endsAt <= closesAt && startsAt < endsAt).toBe(true)
    }
  })

  it('names only things that the catalogue knows, in tubes and eyepieces of that station', () => {
    for (const { targetKey, stationId, setups } of tour.stops) {
      expect(desk.objects.show(targetKey)?.key).toBe(targetKey)
      const telescope = night.stations.find(({ id }) => id === stationId)?.telescope
      for (const { tubeId, eyepieceId } of setups) {
        expect(telescope?.tubes.map(({ id }) => id)).toContain(tubeId)
        expect(telescope?.eyepieces.map(({ id }) => id)).toContain(eyepieceId)
      }
    }
  })

  it('is kept and comes back the same', () => {
    expect(desk.tours.current(night.id)).toEqual(tour)
    expect(desk.tours.find(tour.id)).toEqual(tour)
    expect(tour).toMatchObject({ version: 1, why: 'first', steps: STEPS })
  })

  it(
    'comes out the same for the same night on another laptop',
    async () => {
      const twin = seedEvening(desk, north)
      const again = await desk.tours.build(twin.id, { steps: STEPS })
      expect(again.seed).toBe(tour.seed)
      expect(again.value).toBe(tour.value)
      expect(stopsOf(again, twin)).toEqual(stopsOf(tour, night))
    },
    SLOW_MS,
  )

  it(
    'becomes a new version when it is asked for again, and says so when the night has changed',
    async () => {
      const evening = seedEvening(desk, south)
      await desk.tours.build(evening.id, { steps: 5 })
      const asked = await desk.tours.build(evening.id, { steps: 5, seed: 7 })
      expect(asked).toMatchObject({ version: 2, why: 'asked', seed: 7 })
      desk.sites.change(evening.site.id, { ...south.site, skyMag: 19 })
      const changed = await desk.tours.build(evening.id, { steps: 5 })
      expect(changed).toMatchObject({ version: 3, why: 'changed' })
      expect(desk.tours.versions(evening.id).map(({ version, why }) => `${version} ${why}`)).toEqual([
        '1 first',
        '2 asked',
        '3 changed',
      ])
    },
    SLOW_MS,
  )

  it('cannot be found before it is built, nor for a night that nobody kept', async () => {
    const bare = seedEvening(desk, south)
    expect(desk.tours.current(bare.id)).toBeUndefined()
    await expect(desk.checks.at(bare.id, new Date())).rejects.toMatchObject({ code: 'not-found', key: 'fault.no-tour' })
    await expect(desk.tours.build('nowhere')).rejects.toMatchObject({ key: 'fault.no-night' })
  })

  it(
    'is made away from the thread that serves the pages',
    async () => {
      const twin = seedEvening(desk, north)
      let turns = 0
      const counting = setInterval(() => {
        turns += 1
      }, 5)
      const built = await desk.tours.build(twin.id, { steps: STEPS })
      clearInterval(counting)
      expect(turns).toBeGreaterThan(built.seconds * 20)
    },
    SLOW_MS,
  )
})

describe('the programme that the row goes by', () => {
  const record = (id: string, key: string, kind: MarkKind, payload: MarkDraft['payload'], stationId: string | null) =>
    desk.marks.record(id, [{ key, kind, stationId, payload, secondsAgo: 0 }], 'host', 'host')
  const accept = (id: string, tourId: string, key: string) => record(id, key, 'accepted', { tourId }, null)
  const undo = (id: string, markKey: string, key: string) => record(id, key, 'undo', { markKey }, null)
  const plan = ({ stops }: Tour) =>
    night.stations.map(
      ({ id }) => stops.findLast((stop) => stop.stationId === id && stop.startsAt <= IN_THE_EVENING)?.targetKey,
    )
  const shownIn = (id: string) => desk.marks.field(id).stations.map(({ showing }) => showing?.targetKey)

  it(
    'is the newest before the night, until an older one is accepted, until that is undone, until that is undone',
    async () => {
      const second = await desk.tours.build(night.id, { steps: 0, seed: 5 })
      clock.moveTo(IN_THE_EVENING.toISOString())
      expect(plan(second)).not.toEqual(plan(tour))
      const holds = (expected: Tour) => {
        expect(desk.tours.current(night.id)).toEqual(expected)
        expect(shownIn(night.id)).toEqual(plan(expected))
      }
      holds(second)
      accept(night.id, tour.id, 'accepts-the-first')
      holds(tour)
      undo(night.id, 'accepts-the-first', 'takes-it-back')
      holds(second)
      undo(night.id, 'takes-it-back', 'takes-that-back')
      holds(tour)
      clock.moveTo(AFTERNOON)
    },
    SLOW_MS,
  )

  it(
    'stays once something has been shown, however often it is built again, until the newer one is accepted',
    async () => {
      const evening = seedEvening(desk, north)
      const first = await desk.tours.build(evening.id, { steps: 0 })
      const [stop] = first.stops
      if (!stop) throw new Error('The programme has no stop')
      record(evening.id, 'shows-the-first', 'showing', { targetKey: stop.targetKey, aim: stop.aim }, stop.stationId)
      await desk.tours.build(evening.id, { steps: 0, seed: 5 })
      const third = await desk.tours.build(evening.id, { steps: 0, seed: 6 })
      expect(desk.tours.current(evening.id)).toEqual(first)
      expect(desk.tours.stateOf(first)).toMatchObject({ isCurrent: true, waiting: { id: third.id, version: 3 } })
      expect(desk.tours.stateOf(third).isCurrent).toBe(false)
      accept(evening.id, third.id, 'accepts-the-third')
      expect(desk.tours.current(evening.id)).toEqual(third)
      expect(desk.tours.stateOf(third)).toMatchObject({ isCurrent: true, waiting: null })
    },
    SLOW_MS,
  )
})

describe('a night that is changed after its programme was built', () => {
  it(
    'makes it out of date when what decides it changed, and not for a name',
    async () => {
      const evening = seedEvening(desk, north)
      const built = await desk.tours.build(evening.id, { steps: 0 })
      const change = (more: Partial<NightDraft>): boolean => {
        desk.nights.change(evening.id, { ...draftOf(evening), ...more })
        return desk.tours.stateOf(built).isStale
      }
      const { stations, settings } = draftOf(evening)
      const backwards = JSON.parse(JSON.stringify(Object.fromEntries(Object.entries(settings).reverse())))
      expect(change({ settings: backwards })).toBe(false)
      expect(change({ title: 'Another name', stations: stations.map((it) => ({ ...it, operator: 'Tove' })) })).toBe(
        false,
      )
      expect(change({ closes: '20:30', visitors: [] })).toBe(true)
      expect(change({})).toBe(false)
      expect(
        change({ stations: stations.map((it, i) => ({ ...it, telescopeId: stations[3 - i]?.telescopeId ?? null })) }),
      ).toBe(true)
      expect(change({})).toBe(false)
      desk.sites.change(evening.site.id, { ...north.site, skyMag: 18 })
      expect(desk.tours.stateOf(built).isStale).toBe(true)
      desk.sites.change(evening.site.id, north.site)
      expect(desk.tours.stateOf(built).isStale).toBe(false)
      expect(change({ stations: stations.slice(1) })).toBe(true)
    },
    SLOW_MS,
  )
})

describe('the half-hour checks of an evening', () => {
  it(
    'are made for opening and every half hour after it',
    async () => {
      const checks = await desk.checks.evening(night.id)
      expect(checks.map(({ at }) => at.toISOString().slice(11, 16))).toEqual([
        '17:00',
        '17:30',
        '18:00',
        '18:30',
        '19:00',
        '19:30',
      ])
    },
    SLOW_MS,
  )

  it(
    'are the same asked for one by one',
    async () => {
      const checks = await desk.checks.evening(night.id)
      const third = checks[2]
      if (!third) throw new Error('The evening has no third check')
      expect(await desk.checks.at(night.id, third.at)).toEqual(third)
      expect(third.lines.length).toBeGreaterThan(4)
    },
    SLOW_MS,
  )

  it(
    'stay near their evening, however far away the instant that is asked for',
    async () => {
      const { opensAt, closesAt } = nightHours(night)
      const [before, after] = [await desk.checks.at(night.id, new Date(0)), await desk.checks.at(night.id, FAR_AT)]
      expect(before.at).toEqual(new Date(opensAt.getTime() - 1_800_000))
      expect(after.at).toEqual(new Date(closesAt.getTime() + 1_800_000))
    },
    SLOW_MS,
  )
})
