import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { Fault } from '../../server/errors.ts'
import type { Tour } from '../../server/tours/tour.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'
import { A_COMET_DRAFT } from '../support/own-object-data.ts'

const STEPS = 60
const folder = freshFolder()
let desk: Desk
beforeAll(async () => {
  desk = await openDesk(folder)
}, SLOW_MS)
afterEach(() => {
  for (const { key } of desk.objects.own()) desk.objects.removeOwn(key)
})
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

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
    'is on the programme of the night, in its check, and on the list until it is taken off',
    async () => {
      const night = seedEvening(desk, north)
      const before = await desk.tours.build(night.id, { steps: STEPS })
      const { key } = desk.objects.addOwn(A_COMET_DRAFT)
      expect(keysOf(before)).not.toContain(key)
      expect(desk.tours.stateOf(before).isStale).toBe(true)

      const withComet = await desk.tours.build(night.id, { steps: STEPS })
      expect(withComet.why).toBe('changed')
      expect(keysOf(withComet)).toContain(key)
      expect(desk.tours.stateOf(withComet).isStale).toBe(false)
      const at = new Date('2026-12-17T18:00:00Z')
      const lines = async () => (await desk.checks.at(night.id, at)).lines.map(({ targetKey }) => targetKey)
      expect(await lines()).toContain(key)
      const tonight = await desk.tonight(night.id, key, null)
      expect(tonight.targetKey).toBe(key)

      desk.objects.removeOwn(key)
      expect(desk.tours.stateOf(withComet).isStale).toBe(true)
      expect(desk.tours.stateOf(before).isStale).toBe(false)
      expect(await lines()).not.toContain(key)
      expect(desk.objects.show(key)?.name).toBe(A_COMET_DRAFT.name)
      await expect(desk.tonight(night.id, key, null)).rejects.toMatchObject({ key: 'fault.not-on-list' })
      expect(keysOf(await desk.tours.build(night.id, { steps: STEPS }))).not.toContain(key)
    },
    SLOW_MS,
  )

  it('is found by its name before the catalogue, and stands in the sky and before the eye as any other thing', () => {
    const { key, raDeg } = desk.objects.addOwn(A_COMET_DRAFT)
    expect(desk.objects.search('comet', 5)[0]).toMatchObject({ key, kind: 'comet', isOutreach: true })
    expect(desk.objects.find('comet häberli').canonicalKey).toBe(key)
    const at = new Date('2026-12-17T18:00:00Z')
    const place = { latitudeDeg: 47, longitudeDeg: 8, heightM: 500 }
    const [found] = desk.sky.places(at, place, [key])
    expect(found?.magnitude).toBe(4)
    expect(Math.abs((found?.raDeg ?? 0) - (raDeg ?? 0))).toBeLessThan(1)
    desk.objects.removeOwn(key)
    expect(desk.objects.own()).toEqual([])
  })

  it('has a name that nothing else has, and that can be looked up', () => {
    const { key } = desk.objects.addOwn(A_COMET_DRAFT)
    const wrong = (name: string) => problemsOf(() => desk.objects.addOwn({ ...A_COMET_DRAFT, name }))
    expect(wrong('comet haberli')).toEqual([['name', 'problem.name-taken']])
    expect(wrong('Saturn')).toEqual([['name', 'problem.name-taken']])
    expect(wrong('☄')).toEqual([['name', 'problem.no-letter']])
    desk.objects.removeOwn(key)
    expect(desk.objects.addOwn(A_COMET_DRAFT).key).not.toBe(key)
    expect(() => desk.objects.removeOwn('m13')).toThrow(Fault)
  })
})
