import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import type { Night } from '../../server/tours/night.ts'
import { meanErrorFactor } from '../../server/tours/pointing-error.ts'
import { placeOf } from '../../server/tours/site.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'

const folder = freshFolder()
const DUSK = new Date('2026-12-17T17:00:00Z')
let desk: Desk
let night: Night
beforeAll(async () => {
  desk = await openDesk(folder)
  night = seedEvening(desk, north)
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

describe('alignment stars of a night', () => {
  it('are stars that the catalogue knows by that name, where it sees them', () => {
    const pairs = desk.alignment(night.id, DUSK)
    expect(pairs[0]?.stars.map(({ name }) => name)).toEqual(['Vega', 'Capella'])
    for (const { key, name, direction } of pairs.flatMap(({ stars }) => stars)) {
      expect(desk.objects.find(key)).toMatchObject({ canonicalKey: key, object: { name } })
      const [seen] = desk.sky.places(DUSK, placeOf(night.site), [key])
      expect(direction.altitudeDeg).toBeCloseTo(seen?.apparentAltitudeDeg ?? 0, 2)
      expect(direction.azimuthDeg).toBeCloseTo(seen?.azimuthDeg ?? 0, 2)
    }
  })

  it('are judged by the whole sky without a programme, and by its targets with one', async () => {
    const [before] = desk.alignment(night.id, DUSK)
    const { stops } = await desk.tours.build(night.id, { steps: 60 })
    const [after] = desk.alignment(night.id, DUSK)
    if (!before || !after) throw new Error('There is no pair')
    const [one, two] = before.stars
    expect(before.meanErrorFactor).toBe(meanErrorFactor(one.direction, two.direction, []))
    const targets = [...new Set(stops.map(({ targetKey }) => targetKey))].map((key) => targetOf(stops, key))
    const [first, second] = after.stars
    expect(after.meanErrorFactor).toBeCloseTo(meanErrorFactor(first.direction, second.direction, targets), 9)
  })

  it('are none by day', () => expect(desk.alignment(night.id, new Date('2026-12-17T12:00:00Z'))).toEqual([]))

  it('are not to be had for a night that nobody planned', () => {
    expect(() => desk.alignment('no-such-night', DUSK)).toThrow(expect.objectContaining({ code: 'not-found' }))
  })

  function targetOf(stops: readonly { targetKey: string; startsAt: Date; endsAt: Date }[], key: string) {
    const stop = stops.find(({ targetKey }) => targetKey === key)
    if (!stop) throw new Error(`${key} is not shown`)
    const middleAt = new Date((stop.startsAt.getTime() + stop.endsAt.getTime()) / 2)
    const [place] = desk.sky.places(middleAt, placeOf(night.site), [key])
    if (!place) throw new Error(`${key} is nowhere`)
    return { altitudeDeg: place.apparentAltitudeDeg, azimuthDeg: place.azimuthDeg }
  }
})
