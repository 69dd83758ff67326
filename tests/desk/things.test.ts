import { afterAll, describe, expect, it } from 'vitest'
import type { ThingList, ThingQuery } from '../../server/desk/thing-kinds.ts'
import { freshDesk } from '../support/desk-folder.ts'
import { SITE_DRAFT, TELESCOPE_DRAFT } from '../support/field-data.ts'
import { ANY_THING } from '../support/thing-pages.ts'

const { desk, close } = await freshDesk()
afterAll(close)

const list = (given: Partial<ThingQuery> = {}): Promise<ThingList> => desk.things.list({ ...ANY_THING, ...given })
const keysOf = ({ things }: ThingList): string[] => things.map(({ hit }) => hit.key)

describe('a list without any site', () => {
  it('is reckoned for one of two places that nobody wrote, in 150 mm, for the month that it is', async () => {
    expect(desk.things.places().map(({ id }) => id)).toEqual(['north', 'south'])
    const south = await list({ siteId: 'south' })
    expect(south).toMatchObject({ month: '2026-12', telescopes: [], isDark: true, page: 1 })
    expect(south.site.latitudeDeg).toBe(-35)
    expect(south.total).toBe(desk.health().counts.outreach)
    const [best] = south.things
    expect(best?.seasonal).toMatchObject({ isGood: true, telescopeId: 'plain' })
  })

  it('knows no other place', async () => {
    await expect(list({ siteId: 'east' })).rejects.toMatchObject({ key: 'fault.no-site' })
  })
})

describe('the list', () => {
  it('goes from what delights and is seen to what is not, a page at a time', async () => {
    const pages = [await list(), await list({ page: 2 })]
    const worths = pages.flatMap(({ things }) =>
      things.map(({ object, seasonal }) => (object?.appeal ?? 0) * (seasonal?.chance ?? 0)),
    )
    expect(worths).toHaveLength(60)
    expect(worths).toEqual(worths.toSorted((a, b) => b - a))
    expect(new Set(pages.flatMap(keysOf)).size).toBe(60)
    const last = await list({ page: 9999 })
    expect(last.page).toBe(last.pages)
    expect(last.things.length).toBeLessThanOrEqual(30)
  })

  it('keeps to the kind, the constellation and the evenings asked for, all at once', async () => {
    const { things, total } = await list({ kind: 'galaxy', constellation: 'UMa', evening: 4, perPage: 50 })
    expect(total).toBeGreaterThan(1)
    for (const { hit, seasonal } of things) {
      expect([hit.kind, hit.constellation]).toEqual(['galaxy', 'UMa'])
      expect(seasonal?.season.months).toContain(4)
    }
    expect((await list({ kind: 'galaxy', constellation: 'Oct' })).total).toBe(0)
  })

  it('shows what is good alone, where asked', async () => {
    const good = await list({ isGoodOnly: true, perPage: 50 })
    expect(good.things.every(({ seasonal }) => seasonal?.isGood)).toBe(true)
    expect(good.total).toBeLessThan((await list()).total)
    expect(keysOf(good)).toContain('m45')
    expect(keysOf(await list({ isGoodOnly: true, month: '2027-06', perPage: 50 }))).not.toContain('m45')
  })

  it('answers a search in its own order, stars that are not on the list behind', async () => {
    const found = await list({ text: 'gamma cyg' })
    expect(keysOf(found)[0]).toBe('hip100453')
    expect(found.things[0]).toMatchObject({ object: null, seasonal: null, hit: { name: 'Sadr' } })
    expect(keysOf(await list({ text: 'm 13' }))[0]).toBe('m13')
    expect((await list({ text: 'm 13', kind: 'galaxy' })).total).toBe(0)
  })

  it('is reckoned once for a site, a month and a kit, and anew when the kit or the site is changed', async () => {
    const first = await list({ month: '2027-02' })
    const beganMs = performance.now()
    const again = await list({ month: '2027-02', kind: 'globular' })
    expect(performance.now() - beganMs).toBeLessThan(100)
    expect(again.things.every(({ hit }) => hit.kind === 'globular')).toBe(true)
    const chanceOf = ({ things }: ThingList) => things.find(({ hit }) => hit.key === 'm42')?.seasonal?.chance
    expect(chanceOf(first)).toBeGreaterThan(0.8)

    const site = desk.sites.add({ ...SITE_DRAFT, horizon: [{ azimuthDeg: 180, altitudeDeg: 60, name: 'wall' }] })
    const walled = await list({ month: '2027-02' })
    expect([walled.site.id, walled.telescopes]).toEqual([site.id, []])
    expect(chanceOf(walled) ?? 0).toBe(0)
    desk.sites.change(site.id, { ...SITE_DRAFT, horizon: [] })
    const { id } = desk.telescopes.add(TELESCOPE_DRAFT)
    const open = await list({ month: '2027-02' })
    expect(open.telescopes.map((telescope) => telescope.id)).toEqual([id])
    expect(chanceOf(open)).toBeGreaterThan(0.8)
  })
})

describe('one thing', () => {
  it('has the same answer alone as in the list', async () => {
    const whence = { siteId: null, month: '2027-04' }
    const { object } = desk.objects.find('m3')
    const alone = await desk.things.one(object, whence)
    const listed = (await list({ ...whence, kind: 'globular', perPage: 50 })).things.find(({ hit }) => hit.key === 'm3')
    expect(alone.seasonal).toEqual(listed?.seasonal)
    expect(alone.season).toEqual(listed?.seasonal?.season)
    expect(await desk.things.one(object, whence)).toEqual(alone)
  })

  it('has months where it is a star of the catalogue, and no more', async () => {
    const { object } = desk.objects.find('hip100453')
    const { season, seasonal } = await desk.things.one(object, { siteId: null, month: null })
    expect([season?.code, seasonal]).toEqual(['months', null])
    expect(season?.months).toContain(9)
    expect(desk.things.star('hip100453')?.otherNames).toContain('37 Cygni')
  })

  it('has its neighbours with their directions, and the stars that its picture asks for', () => {
    const [nearest] = desk.things.near('m81', 3)
    expect(nearest?.object.key).toBe('m82')
    expect(nearest?.separationDeg).toBeCloseTo(0.62, 1)
    expect(Math.min(nearest?.directionDeg ?? 180, 360 - (nearest?.directionDeg ?? 180))).toBeLessThan(25)
    const stars = desk.things.stars(desk.objects.find('m45').object)
    expect(stars.length).toBeGreaterThan(12)
    expect(desk.things.stars(desk.objects.find('m13').object)).toEqual([])
  })

  it('counts where its values come from', () => {
    const object = desk.objects.show('m13')
    if (object === undefined) throw new Error('M13 is on the list')
    const counts = desk.things.sourceCounts(object)
    expect(Object.values(counts).reduce((sum, count) => sum + count, 0)).toBe(Object.keys(object.sources).length)
  })
})
