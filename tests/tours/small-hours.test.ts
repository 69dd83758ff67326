import { describe, expect, it } from 'vitest'
import { bodyLook } from '../../server/sky/body.ts'
import { advance, beginTour, finishTour } from '../../server/tours/build.ts'
import { eveningKey, eveningSky } from '../../server/tours/evening.ts'
import { eveningChance, seenAtStep } from '../../server/tours/evening-chance.ts'
import { halfHourCheck } from '../../server/tours/half-hour.ts'
import { nightHours, wallClock } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import { placeOf } from '../../server/tours/site.ts'
import { stepAt, sunAtStep } from '../../server/tours/sky-at.ts'
import { demoNight } from '../support/demo-night.ts'
import { showObject } from '../support/show-objects.ts'

const objects = [
  showObject({ key: 'moon', kind: 'moon', body: 'moon', raDeg: null, decDeg: null, magnitude: null, atOnce: 2 }),
  showObject({
    key: 'jupiter',
    kind: 'planet',
    body: 'jupiter',
    raDeg: null,
    decDeg: null,
    magnitude: null,
    atOnce: 2,
  }),
  showObject({ key: 'betelgeuse', kind: 'red-star', raDeg: 88.79, decDeg: 7.41, magnitude: 0.5, bv: 1.85 }),
  showObject({ key: 'procyon', raDeg: 114.83, decDeg: 5.22, magnitude: 0.4 }),
  showObject({ key: 'regulus', raDeg: 152.09, decDeg: 11.97, magnitude: 1.4 }),
  showObject({ key: 'dubhe', raDeg: 165.93, decDeg: 61.75, magnitude: 1.8 }),
  showObject({ key: 'alhena', raDeg: 99.43, decDeg: 16.4, magnitude: 1.9 }),
]

function build(night: Night) {
  const sky = eveningSky(night, objects)
  const chance = eveningChance(sky, night, objects)
  const work = beginTour({ night, objects, sky, chance, seed: 3 })
  advance(work, 4000)
  return { ...finishTour(work), sky, chance }
}

const late = { ...demoNight, date: '2026-12-18', opens: '00:30', closes: '03:00', visitors: [] }
const built = build(late)

describe('a night that opens after midnight', () => {
  it('has a programme in its public hours', () => {
    const { opensAt, closesAt } = nightHours(late)
    expect(built.stops.length).toBeGreaterThan(3)
    for (const { startsAt, endsAt } of built.stops) {
      expect(startsAt >= opensAt && endsAt <= closesAt).toBe(true)
    }
    expect(built.notices.map(({ code }) => code)).not.toContain('tour.nothing-visible')
  })

  it('stands under the same sky as a night that opened the evening before and is still on', () => {
    const long = { ...late, date: '2026-12-17', opens: '22:00' }
    const sky = eveningSky(long, objects)
    expect(sky.startsAt).toEqual(built.sky.startsAt)
    expect(sky.altitudeDeg).toEqual(built.sky.altitudeDeg)
    expect(sky.events).toEqual(built.sky.events)
    expect(eveningKey(long, '')).not.toBe(eveningKey(late, ''))
  })

  it('shows the planets and the Moon as they look in its own hours', () => {
    const middleAt = new Date('2026-12-18T00:45:00Z')
    const jupiter = bodyLook('jupiter', middleAt, placeOf(late.site))
    expect(built.sky.looks.jupiter?.altitudeDeg).toBeCloseTo(jupiter.altitudeDeg, 6)
  })

  it('is checked at its own half hours, and the check says which', () => {
    const { opensAt } = nightHours(late)
    const checkedOf = (minutes: number) =>
      halfHourCheck({
        night: late,
        tour: built,
        ...built,
        objects,
        at: new Date(opensAt.getTime() + minutes * 60_000),
        previousAt: null,
      })
    const check = checkedOf(0)
    expect(wallClock(check.at, late.site.zone)).toBe('00:30')
    const first = built.stops.filter(({ startsAt }) => startsAt <= opensAt)
    for (const { targetKey, stationId } of first) {
      const line = check.lines.find((other) => other.targetKey === targetKey && other.stationId === stationId)
      expect([targetKey, line?.group]).not.toEqual([targetKey, 'gone'])
    }
    expect(first.length).toBeGreaterThan(0)
  })

  it('keeps its programme when the clocks change in it', () => {
    for (const date of ['2027-03-28', '2026-10-25']) {
      const night = { ...late, date, opens: '00:30', closes: '04:00' }
      const { stops } = build(night)
      expect([date, stops.length > 3]).toEqual([date, true])
      const { closesAt } = nightHours(night)
      expect(Math.max(...stops.map(({ endsAt }) => endsAt.getTime()))).toBeLessThanOrEqual(closesAt.getTime())
    }
  })
})

describe('a sky', () => {
  it('holds an hour either side of the public hours, even where the Sun does not rise', () => {
    const site = { ...demoNight.site, latitudeDeg: 78, longitudeDeg: 15, zone: 'Arctic/Longyearbyen' }
    for (const [opens, closes] of [
      ['10:00', '14:00'],
      ['08:30', '11:30'],
      ['12:30', '14:30'],
    ] as const) {
      const night = { ...demoNight, site, opens, closes }
      const sky = eveningSky(night, [])
      const { opensAt, closesAt } = nightHours(night)
      expect(stepAt(sky, opensAt)).toBeGreaterThanOrEqual(12)
      expect(sky.count - 1 - stepAt(sky, closesAt)).toBeGreaterThanOrEqual(12)
      const sun = bodyLook('sun', opensAt, placeOf(site)).altitudeDeg
      expect(sunAtStep(sky, stepAt(sky, opensAt)).altitudeDeg).toBeCloseTo(sun, 2)
    }
  })

  it('lasts through the night where the Sun rises and sets in one afternoon by the clocks', () => {
    const site = { ...demoNight.site, latitudeDeg: 66.4, longitudeDeg: -22.5, zone: 'Atlantic/Reykjavik' }
    const sky = eveningSky({ ...demoNight, site, date: '2026-12-21' }, [])
    const { sunriseAt, sunsetAt } = sky.events
    expect(sunriseAt !== null && sunsetAt !== null && sunriseAt < sunsetAt).toBe(true)
    expect(sky.startsAt.getTime() + (sky.count - 1) * 300_000).toBeGreaterThan(Date.parse('2026-12-22T08:00:00Z'))
  })
})

describe('an instant far from the public hours', () => {
  const { opensAt, closesAt } = nightHours(late)
  const checkAt = (at: Date) => halfHourCheck({ night: late, tour: built, ...built, objects, at, previousAt: null })

  it('is answered for up to an hour off them, and refused beyond instead of answered for another', () => {
    expect(checkAt(new Date(closesAt.getTime() + 1_800_000)).at).toEqual(new Date(closesAt.getTime() + 1_800_000))
    expect(() => checkAt(new Date(closesAt.getTime() + 5_400_000))).toThrow(RangeError)
    expect(() => checkAt(new Date(opensAt.getTime() - 5_400_000))).toThrow(RangeError)
  })

  it('has no chance reckoned', () => {
    const { chance } = built
    expect(seenAtStep(chance, 0, 0, chance.to).chance).toBeGreaterThanOrEqual(0)
    expect(() => seenAtStep(chance, 0, 0, chance.to + 1)).toThrow(RangeError)
    expect(() => seenAtStep(chance, 0, 0, chance.from - 1)).toThrow(RangeError)
  })

  it('of another night is refused by the chances', () => {
    expect(() => eveningChance(built.sky, { ...late, date: '2026-12-19' }, objects)).toThrow(RangeError)
  })
})

describe('a night of a quarter of an hour, the shortest', () => {
  it('has a programme, off the quarters too', () => {
    const night = { ...demoNight, opens: '18:07', closes: '18:22', visitors: [] }
    const { stops, notices } = build(night)
    expect(stops.map(({ targetKey }) => targetKey)).toContain('moon')
    expect(notices.map(({ code }) => code)).not.toContain('tour.nothing-visible')
  })
})
