import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { south } from '../../seed-demo/south.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { nightHours } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Stop, Tour } from '../../server/tours/tour.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'

const STEPS = 60
const FAR_AT = new Date('2999-01-01T00:00:00Z')
const folder = freshFolder()
let desk: Desk
let night: Night
let tour: Tour
beforeAll(async () => {
  desk = await openDesk(folder)
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
    expect(desk.tours.latest(night.id)).toEqual(tour)
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
    expect(desk.tours.latest(bare.id)).toBeUndefined()
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
  const accept = (tourId: string, key: string) =>
    desk.marks.record(
      night.id,
      [{ key, kind: 'accepted', stationId: null, payload: { tourId }, secondsAgo: 0 }],
      'host',
    )
  const nextKeys = () => desk.marks.field(night.id).stations.map(({ showing }) => showing?.targetKey)

  it(
    'is the newest, until an older one is accepted, until that is undone',
    async () => {
      const first = nextKeys()
      await desk.tours.build(night.id, { steps: 0, seed: 5 })
      const second = nextKeys()
      expect(second).not.toEqual(first)
      accept(tour.id, 'accepts-the-first')
      expect(nextKeys()).toEqual(first)
      desk.marks.record(
        night.id,
        [
          {
            key: 'takes-it-back',
            kind: 'undo',
            stationId: null,
            payload: { markKey: 'accepts-the-first' },
            secondsAgo: 0,
          },
        ],
        'host',
      )
      expect(nextKeys()).toEqual(second)
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
