import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distancePercent, lightLeft, type WorldEvent } from '../../server/tours/light-left.ts'
import { showObject } from '../support/show-objects.ts'

const event = (fromYear: number, toYear: number): WorldEvent => ({
  fromYear,
  toYear,
  what: `it was ${fromYear}`,
  place: 'Asia',
  source: 'from memory',
})
const EVENTS = [event(-2600, -2500), event(1455, 1455), event(1969, 1969), event(2001, 2001)]
const NIGHT = new Date('2026-12-17T18:00:00Z')

describe('when light left', () => {
  it('is the year of the night less the distance, with how sure that is', () => {
    const far = showObject({ kind: 'star', distanceLy: 25 })
    const light = lightLeft(far, NIGHT, EVENTS)
    expect(light?.year).toBeCloseTo(2026.96 - 25, 1)
    expect(light?.uncertainYears).toBeCloseTo(0.75, 9)
    expect(light?.event?.fromYear).toBe(2001)
  })

  it('moves with the date of the night', () => {
    const far = showObject({ kind: 'star', distanceLy: 25 })
    const later = new Date('2036-12-17T18:00:00Z')
    expect((lightLeft(far, later, EVENTS)?.year ?? 0) - (lightLeft(far, NIGHT, EVENTS)?.year ?? 0)).toBeCloseTo(10, 2)
    expect(lightLeft(far, later, EVENTS)?.event).toBeNull()
  })

  it('takes the event that lies nearest, and none that lies further off than "about" allows', () => {
    const cluster = showObject({ kind: 'open-cluster', distanceLy: 560 })
    expect(lightLeft(cluster, NIGHT, EVENTS)?.event?.fromYear).toBe(1455)
    expect(lightLeft(showObject({ kind: 'globular', distanceLy: 1700 }), NIGHT, EVENTS)?.event).toBeNull()
  })

  it('counts any year of an event that lasted as its own', () => {
    const cluster = showObject({ kind: 'open-cluster', distanceLy: 4550 })
    expect(lightLeft(cluster, NIGHT, EVENTS)?.event?.fromYear).toBe(-2600)
  })

  it('is unknown for what has no distance', () => {
    expect(lightLeft(showObject({ distanceLy: null }), NIGHT, EVENTS)).toBeNull()
  })

  it('never tells of an event outside what is allowed, whatever the distance', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 4, max: 2e8, noNaN: true }),
        fc.integer({ min: 1, max: 50 }),
        (distanceLy, percent) => {
          const light = lightLeft(showObject({ distanceLy, distancePercent: percent }), NIGHT, EVENTS)
          if (!light?.event) return
          const off = Math.max(0, light.event.fromYear - light.year, light.year - light.event.toYear - 1)
          expect(off).toBeLessThanOrEqual(
            Math.max((distanceLy * percent) / 100, distanceLy / (distanceLy < 1000 ? 20 : 10), 1),
          )
        },
      ),
    )
  })
})

describe('how far off a distance may be', () => {
  it('is what the row says, else what is usual for its kind', () => {
    expect(distancePercent(showObject({ kind: 'globular', distanceLy: 23_000, distancePercent: 2 }))).toBe(2)
    expect(distancePercent(showObject({ kind: 'globular', distanceLy: 23_000 }))).toBe(5)
    expect(distancePercent(showObject({ kind: 'planetary', distanceLy: 2300 }))).toBe(25)
  })

  it('grows for stars as they get farther', () => {
    const percents = [50, 500, 5000].map((distanceLy) => distancePercent(showObject({ kind: 'double', distanceLy })))
    expect(percents).toEqual([3, 10, 25])
  })
})
