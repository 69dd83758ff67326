import { afterAll, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { freshDesk, SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { A_COMET_DRAFT } from '../support/own-object-data.ts'

const clock = standingClock('2026-12-17T15:00:00.000Z')
const { desk, close } = await freshDesk({ clock })
afterAll(close)

it('what a night taught of a comet stays as it was when the comet is moved for the next night', {
  timeout: SLOW_MS,
}, async () => {
  const night = seedEvening(desk, north)
  const { key } = desk.own.add({ ...A_COMET_DRAFT, magnitude: 9 })
  clock.moveTo('2026-12-17T18:00:00.000Z')
  const stationId = night.stations[1]?.id ?? ''
  const seen = (markKey: string) => ({
    key: markKey,
    kind: 'seen',
    stationId,
    payload: { targetKey: key, who: 'they' },
    secondsAgo: 0,
  })
  desk.marks.record(night.id, [seen('phone-c-0001')], 'Jonas', 'operator')
  const taught = (await desk.learning.ofSite(night.site.id)).site
  expect(taught.telling).toBe(1)

  clock.moveTo('2026-12-18T10:00:00.000Z')
  desk.own.change(key, { ...A_COMET_DRAFT, magnitude: 3, raDeg: 200, decDeg: -80 })
  // Marks of before are reckoned anew when there are others, taken back or not.
  const others = [
    { ...seen('phone-c-0002'), payload: { targetKey: 'm57', who: 'they' } },
    { ...seen('phone-c-0003'), kind: 'undo', payload: { markKey: 'phone-c-0002' } },
  ]
  desk.marks.record(night.id, others, 'Jonas', 'operator')
  expect((await desk.learning.ofSite(night.site.id)).site).toEqual(taught)
})
