import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { Fault } from '../../server/errors.ts'
import { passesIn } from '../../server/tours/own-pass.ts'
import type { Tour } from '../../server/tours/tour.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { A_CLUSTER_DRAFT, A_COMET_DRAFT, A_NOVA_DRAFT, A_PASS_DRAFT } from '../support/own-object-data.ts'

const STEPS = 60
const folder = freshFolder()
let desk: Desk
beforeAll(async () => {
  desk = await openDesk(folder, { clock: standingClock(AFTERNOON) })
}, SLOW_MS)
afterEach(() => {
  for (const { key, isListed } of desk.own.all()) if (isListed) desk.own.retire(key)
})
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

const listed = () => desk.own.all().filter(({ isListed }) => isListed)
const keysOf = ({ stops, spares }: Tour) => [...stops, ...spares].map(({ targetKey }) => targetKey)
const problemsOf = (act: () => unknown) => {
  try {
    act()
  } catch (error) {
    if (error instanceof Fault) return error.problems.map(({ field, key }) => [field, key])
    throw error
  }
  return []
}

describe('a comet entered by hand', () => {
  it(
    'is on the programme of the night, in its check, and on the list until it is taken off; a change makes it out of date',
    async () => {
      const night = seedEvening(desk, north)
      const before = await desk.tours.build(night.id, { steps: STEPS })
      const { key } = desk.own.add(A_COMET_DRAFT)
      expect(keysOf(before)).not.toContain(key)
      expect(desk.tours.stateOf(before).isStale).toBe(true)

      const withComet = await desk.tours.build(night.id, { steps: STEPS })
      expect(withComet.why).toBe('changed')
      expect(keysOf(withComet)).toContain(key)
      expect(desk.tours.stateOf(withComet).isStale).toBe(false)
      const at = new Date('2026-12-17T18:00:00Z')
      const lines = async () => (await desk.checks.at(night.id, at)).lines.map(({ targetKey }) => targetKey)
      expect(await lines()).toContain(key)
      expect((await desk.tonight(night.id, key, null)).targetKey).toBe(key)

      const changed = desk.own.change(key, { ...A_COMET_DRAFT, magnitude: 4.5 })
      expect(changed).toMatchObject({ key, isListed: true, object: { magnitude: 4.5 } })
      expect(desk.tours.stateOf(withComet).isStale).toBe(true)
      expect(keysOf(desk.tours.find(withComet.id))).toContain(key)
      desk.own.change(key, A_COMET_DRAFT)
      expect(desk.tours.stateOf(withComet).isStale).toBe(false)

      desk.own.retire(key)
      expect(desk.tours.stateOf(withComet).isStale).toBe(true)
      expect(desk.tours.stateOf(before).isStale).toBe(false)
      expect(await lines()).not.toContain(key)
      expect(desk.objects.show(key)?.name).toBe(A_COMET_DRAFT.name)
      await expect(desk.tonight(night.id, key, null)).rejects.toMatchObject({ key: 'fault.not-on-list' })
      expect(keysOf(await desk.tours.build(night.id, { steps: STEPS }))).not.toContain(key)

      desk.own.bringBack(key)
      expect(desk.tours.stateOf(withComet).isStale).toBe(false)
    },
    SLOW_MS,
  )

  it('is found by its name before the catalogue, and stands in the sky and before the eye as any other thing', () => {
    const { key, object } = desk.own.add(A_COMET_DRAFT)
    expect(desk.objects.search('comet', 5)[0]).toMatchObject({ key, kind: 'comet', isOutreach: true })
    expect(desk.objects.find('comet häberli').canonicalKey).toBe(key)
    const at = new Date('2026-12-17T18:00:00Z')
    const place = { latitudeDeg: 47, longitudeDeg: 8, heightM: 500 }
    const [found] = desk.sky.places(at, place, [key])
    expect(found?.magnitude).toBe(4)
    expect(Math.abs((found?.raDeg ?? 0) - (object.raDeg ?? 0))).toBeLessThan(1)
    desk.own.retire(key)
    expect(listed()).toEqual([])
  })

  it('has a name that nothing else has, and that can be looked up', () => {
    const { key } = desk.own.add(A_COMET_DRAFT)
    const wrong = (name: string) => problemsOf(() => desk.own.add({ ...A_COMET_DRAFT, name }))
    expect(wrong('comet haberli')).toEqual([['name', 'problem.name-taken']])
    expect(wrong('Saturn')).toEqual([['name', 'problem.name-taken']])
    expect(wrong('☄')).toEqual([['name', 'problem.no-letter']])
    expect(problemsOf(() => desk.own.change(key, { ...A_COMET_DRAFT, name: 'M 13' }))).toEqual([
      ['name', 'problem.name-taken'],
    ])
    expect(desk.own.change(key, { ...A_COMET_DRAFT, name: 'COMET HÄBERLI' }).draft.name).toBe('COMET HÄBERLI')
    desk.own.retire(key)
    const other = desk.own.add(A_COMET_DRAFT)
    expect(other.key).not.toBe(key)
    expect(problemsOf(() => desk.own.bringBack(key))).toEqual([['name', 'problem.name-taken']])
    expect(() => desk.own.retire('m13')).toThrow(Fault)
    expect(() => desk.own.change('own-nowhere', A_COMET_DRAFT)).toThrow(Fault)
  })
})

describe('what passes over', () => {
  it('is told of in its night and found by name, and no telescope ever hears of it', async () => {
    const night = desk.nights.all()[0] ?? seedEvening(desk, north)
    const before = await desk.tours.build(night.id, { steps: STEPS })
    const pass = { ...A_PASS_DRAFT, fromAt: `${night.date}T18:12:10Z`, toAt: `${night.date}T18:18:30Z` }
    const { key } = desk.own.add(pass)
    expect(passesIn(night, desk.own.all()).map((thing) => thing.key)).toEqual([key])
    expect(desk.objects.search('space station', 5)[0]).toMatchObject({ key, kind: 'bare-eye', constellation: null })
    expect(desk.tours.stateOf(before).isStale).toBe(false)
    expect(keysOf(await desk.tours.build(night.id, { steps: STEPS }))).not.toContain(key)
    await expect(desk.tonight(night.id, key, null)).rejects.toMatchObject({ key: 'fault.not-on-list' })
  })
})

describe('the list apart from any night', () => {
  const whence = { siteId: null, month: '2026-12' }
  const listKeys = async () => {
    const query = {
      ...whence,
      text: '',
      kind: null,
      constellation: null,
      evening: null,
      isGoodOnly: false,
      perPage: 5000,
      page: 1,
    }
    return (await desk.things.list(query)).things.map(({ hit }) => hit.key)
  }

  it('holds what telescopes may be given while it is on the list, and still tells of the others by their key', async () => {
    const { key } = desk.own.add(A_COMET_DRAFT)
    const pass = desk.own.add(A_PASS_DRAFT)
    expect(await listKeys()).toContain(key)
    expect(await listKeys()).not.toContain(pass.key)
    expect((await desk.things.one(pass.object, whence)).seasonal?.key).toBe(pass.key)
    desk.own.retire(key)
    expect(await listKeys()).not.toContain(key)
    expect((await desk.things.one(desk.own.find(key).object, whence)).seasonal?.key).toBe(key)
  })
})

describe('many things at once', () => {
  it('are all added, or none with everything that is wrong by its place', () => {
    const more = [A_CLUSTER_DRAFT, A_NOVA_DRAFT, A_PASS_DRAFT]
    const twice = [...more, { ...A_NOVA_DRAFT, name: 'NEW STAR in the swan', raDeg: 400 }, 'nothing', { name: 'M31' }]
    const wrong = problemsOf(() => desk.own.addAll(twice))
    expect(wrong).toContainEqual(['3.name', 'problem.name-twice'])
    expect(wrong).toContainEqual(['3.raDeg', 'problem.range-below'])
    expect(wrong).toContainEqual(['4.', 'problem.type-object'])
    expect(wrong).toContainEqual(['5.name', 'problem.name-taken'])
    expect(wrong).toContainEqual(['5.kind', 'problem.required'])
    expect(listed()).toEqual([])
    expect(desk.own.addAll(more).map(({ draft }) => draft.name)).toEqual(more.map(({ name }) => name))
    expect(listed()).toHaveLength(3)
  })

  it('are a thousand at most', () => {
    const many = Array.from({ length: 999 }, (_, i) => ({ ...A_NOVA_DRAFT, name: `Star ${i} of ours` }))
    desk.own.addAll(many)
    expect(problemsOf(() => desk.own.addAll([A_CLUSTER_DRAFT, A_COMET_DRAFT]))).toEqual([
      ['0.name', 'problem.own-full'],
    ])
    const { key } = desk.own.add(A_CLUSTER_DRAFT)
    expect(problemsOf(() => desk.own.add(A_COMET_DRAFT))).toEqual([['name', 'problem.own-full']])
    desk.own.retire(key)
    desk.own.add(A_COMET_DRAFT)
    expect(problemsOf(() => desk.own.bringBack(key))).toEqual([['name', 'problem.own-full']])
  })
})
