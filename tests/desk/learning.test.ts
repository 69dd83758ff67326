import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { PRIOR } from '../../server/sight/newcomer.ts'
import type { Night } from '../../server/tours/night.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'

const folder = freshFolder()
const clock = standingClock('2026-12-17T17:40:00.000Z')
let desk: Desk
let night: Night
let siteId = ''
beforeAll(async () => {
  desk = await openDesk(folder, { clock })
  night = seedEvening(desk, north)
  siteId = night.site.id
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

let count = 0
const newKey = () => `phone-b-${String(++count).padStart(4, '0')}`
function mark(kind: 'seen' | 'undo', payload: Record<string, string>, of = night, place = 1): string {
  const stationId = of.stations[place]?.id ?? ''
  const key = newKey()
  desk.marks.record(of.id, [{ key, kind, stationId, payload, secondsAgo: 0 }], 'Jonas', 'operator')
  return key
}
const THINGS = ['m57', 'm1', 'm15', 'm27', 'm33', 'm31']

describe('a site that nobody has marked anything at', () => {
  it('has the published range, and no factor to take', async () => {
    const { site, telescopes, marks, nights } = await desk.learning.ofSite(siteId)
    expect(site.factor).toBeCloseTo(PRIOR.factor, 2)
    expect([telescopes, marks, nights]).toEqual([[], 0, 0])
    expect(desk.learning.inUse(siteId)).toBeUndefined()
    await expect(desk.learning.use(siteId, 4)).rejects.toMatchObject({ key: 'fault.no-telling-marks' })
  })

  it('must be one', async () => {
    await expect(desk.learning.ofSite('nowhere')).rejects.toMatchObject({ key: 'fault.no-site' })
    expect(() => desk.learning.inUse('nowhere')).toThrow()
    expect(() => desk.learning.forget('nowhere')).toThrow()
  })
})

describe('a site with marks of who saw what', () => {
  it('learns from them in the worker, once for the same marks, and forgets those taken back', async () => {
    const keys = THINGS.map((targetKey) => mark('seen', { targetKey, who: 'they' }))
    const told = await desk.learning.ofSite(siteId)
    expect(told).toMatchObject({ marks: THINGS.length, nights: 1 })
    expect(told.site.factor).toBeLessThan(PRIOR.factor)
    expect(await desk.learning.ofSite(siteId)).toBe(told)
    expect(told.telescopes.map(({ telescopeId }) => telescopeId)).toEqual([night.stations[1]?.telescope?.id])
    for (const markKey of keys) mark('undo', { markKey })
    expect(await desk.learning.ofSite(siteId)).toMatchObject({ marks: 0, site: { telling: 0 } })
  })

  it('gathers all its nights, and none of another site', async () => {
    const { id: _id, state: _state, site: _site, stations, ...rest } = night
    const row = stations.map(({ id: _station, telescope, ...station }) => ({
      ...station,
      telescopeId: telescope?.id ?? null,
    }))
    const second = desk.nights.add({ ...rest, siteId, stations: row, title: 'The same evening again' })
    const elsewhere = seedEvening(desk, north)
    for (const targetKey of THINGS) {
      mark('seen', { targetKey, who: 'they' })
      mark('seen', { targetKey, who: 'they' }, second)
      mark('seen', { targetKey, who: 'not' }, elsewhere)
    }
    const [here, there] = [await desk.learning.ofSite(siteId), await desk.learning.ofSite(elsewhere.site.id)]
    expect(here).toMatchObject({ marks: 2 * THINGS.length, nights: 2 })
    expect(there).toMatchObject({ marks: THINGS.length, nights: 1 })
    expect(there.site.factor).toBeGreaterThan(PRIOR.factor)
    expect(here.site.factor).toBeLessThan(PRIOR.factor)
  })

  it('keeps what was marked at a station that has left the row', async () => {
    const before = await desk.learning.ofSite(siteId)
    const { id, state: _state, site: _site, stations, ...rest } = night
    const row = stations.map(({ id: _station, telescope, ...station }) => ({
      ...station,
      telescopeId: telescope?.id ?? null,
    }))
    desk.nights.change(id, { ...rest, siteId, stations: row.filter((_, place) => place !== 1) })
    const after = await desk.learning.ofSite(siteId)
    expect(after.site.telling).toBe(before.site.telling)
    expect(after.site.factor).toBeCloseTo(before.site.factor, 6)
  })
})

describe('the factor of a site', () => {
  it('changes nothing by itself, is taken as the host has read it, and is kept over a restart', async () => {
    expect(desk.learning.inUse(siteId)).toBeUndefined()
    const { site } = await desk.learning.ofSite(siteId)
    const read = Number(site.factor.toFixed(1))
    await expect(desk.learning.use(siteId, read + 0.1)).rejects.toMatchObject({ key: 'fault.factor-moved' })
    await expect(desk.learning.use(siteId, Number.NaN)).rejects.toMatchObject({ code: 'conflict' })
    expect(desk.learning.inUse(siteId)).toBeUndefined()
    await desk.learning.use(siteId, read)
    const taken = { factor: read, low: Number(site.low.toFixed(1)), high: Number(site.high.toFixed(1)) }
    expect(desk.learning.inUse(siteId)).toEqual({ ...taken, marks: site.telling, setAt: clock.now() })
    await desk.close()
    desk = await openDesk(folder, { clock })
    expect(desk.learning.inUse(siteId)).toMatchObject({ factor: read })
  })

  it('leaves the nights that are planned alone, and goes back to the usual when the host says so', () => {
    expect(desk.nights.find(night.id).settings.noviceFactor).toBe(4)
    desk.learning.forget(siteId)
    desk.learning.forget(siteId)
    expect(desk.learning.inUse(siteId)).toBeUndefined()
  })
})
