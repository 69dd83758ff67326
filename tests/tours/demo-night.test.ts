import { describe, expect, it } from 'vitest'
import { advance, finishTour } from '../../server/tours/build.ts'
import { instantOf, nightHours, wallClock } from '../../server/tours/hours.ts'
import type { HalfHour, Night } from '../../server/tours/night.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { bestThreeAt, breachesOf } from '../support/checker.ts'
import { recount } from '../support/checker-value.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'
import { beginOn, builtOn, type Evening, eveningOf, FOR_TELESCOPES } from '../support/evenings.ts'

const objects = FOR_TELESCOPES
const STEPS = 100_000

const build = (evening: Evening, seed: number) => builtOn(evening, STEPS, { seed })

const rowAt =
  (night: Night) =>
  (at: Date): HalfHour => {
    const row = night.visitors.findLast(({ startsAt }) => instantOf(night, startsAt) <= at)
    if (row === undefined) throw new Error('Nobody is there yet')
    return row
  }

const north = eveningOf(demoNight)
const northern = build(north, 1)
const south = eveningOf(southernNight)
const southern = build(south, 1)

const at = (stops: readonly Stop[], station: number) =>
  stops.filter(({ stationId }) => stationId === `station-${station}`)
const keys = (stops: readonly Stop[]) => stops.map(({ targetKey }) => targetKey)

describe('the programme of the northern demo night', () => {
  it('keeps the Moon at the low refractor from 18:00 to 21:00', () => {
    const stops = at(northern.stops, 0)
    expect(keys(stops)).toEqual(['moon'])
    expect(
      stops.map(({ startsAt, endsAt }) => [startsAt, endsAt].map((time) => wallClock(time, 'Europe/Zurich'))),
    ).toEqual([['18:00', '21:00']])
  })

  it('keeps Saturn at the driven 150 mm for most of the evening', () => {
    const saturn = at(northern.stops, 1).filter(({ targetKey }) => targetKey === 'saturn')
    const minutes = saturn.reduce(
      (sum, { startsAt, endsAt }) => sum + (endsAt.getTime() - startsAt.getTime()) / 60_000,
      0,
    )
    expect(minutes).toBeGreaterThanOrEqual(120)
    expect(at(northern.stops, 1)[0]?.targetKey).toBe('saturn')
  })

  it('shows at the twin tubes Albireo before it goes behind the gym, and the Pleiades later', () => {
    const stops = at(northern.stops, 3)
    expect(stops[0]?.targetKey).toBe('hip95947')
    expect(stops[0]?.leaveBy?.cause).toEqual({ code: 'skyline', name: 'gym roof' })
    expect(stops[0]?.reasons[0]).toMatchObject({ code: 'tour.sets-first', values: { name: 'gym roof' } })
    expect(keys(stops)).toContain('m45')
  })

  it('gives the big reflector glows, the sinking ring first, and shows the Orion Nebula once it is clear of the oak', () => {
    const stops = at(northern.stops, 2)
    expect(keys(stops)).not.toContain('moon')
    expect(keys(stops)).not.toContain('saturn')
    expect(stops[0]?.targetKey).toBe('m57')
    expect(stops[0]?.reasons.map(({ code }) => code)).toContain('tour.best-in-big')
    const orion = northern.stops.find(({ targetKey }) => targetKey === 'm42')
    expect(orion?.startsAt.getTime()).toBeGreaterThanOrEqual(instantOf(demoNight, '20:00').getTime())
  })

  it('never shows the Andromeda Galaxy while it stands overhead', () => {
    expect(keys(northern.stops)).not.toContain('m31')
  })

  it('moves five to ten times in all and lets no rule give way', () => {
    const moves = northern.stops.length - demoNight.stations.length
    expect(moves).toBeGreaterThanOrEqual(4)
    expect(moves).toBeLessThanOrEqual(10)
    expect(northern.notices).toEqual([])
  })
})

describe('the programme of the southern demo night', () => {
  it('keeps the Moon low, takes Jupiter before it sinks, and shows Omega Centauri and the Jewel Box', () => {
    expect(keys(at(southern.stops, 0))).toEqual(['moon'])
    const driven = at(southern.stops, 1)
    expect(driven[0]?.targetKey).toBe('jupiter')
    expect(driven[0]?.reasons[0]?.code).toBe('tour.sinks-first')
    expect(keys(southern.stops)).toEqual(expect.arrayContaining(['ngc5139', 'ngc4755']))
    expect(southern.notices).toEqual([])
  })
})

describe.each([
  { name: 'north', input: north, built: northern },
  { name: 'south', input: south, built: southern },
])('the checker on the $name', ({ input, built }) => {
  const { opensAt, closesAt } = nightHours(input.night)
  const checked = { night: input.night, objects, stops: built.stops, opensAt, closesAt }

  it('finds every rule kept at every fifth minute', () => {
    expect(breachesOf(checked)).toEqual([])
  })

  it('comes to the same value and the same looks by its own writing', () => {
    const again = recount(checked, rowAt(input.night))
    expect(Math.abs(again.value - built.value) / built.value).toBeLessThan(0.005)
    for (const [i, stop] of built.stops.entries()) expect(again.looks[i]).toBeCloseTo(stop.looks, 0)
  })

  it('finds one of the three best things at the station for children in every half hour', () => {
    for (const hour of ['18:05', '19:05', '20:05', '20:50']) {
      const now = instantOf(input.night, hour)
      const shown = at(built.stops, 0).find(({ startsAt, endsAt }) => startsAt <= now && now < endsAt)
      expect(bestThreeAt(checked, now)).toContain(shown?.targetKey)
    }
  })

  it('says when a stop is moved behind the trees or shown twice', () => {
    const [first] = built.stops
    if (first === undefined) throw new Error('An empty programme')
    const low = { ...first, targetKey: 'm42', aim: 'whole' as const }
    expect(breachesOf({ ...checked, stops: [low, ...built.stops.slice(1)] })).not.toEqual([])
    expect(breachesOf({ ...checked, stops: [...built.stops, first] })).not.toEqual([])
  })
})

describe('the search', () => {
  it('gives the same programme for the same seed and steps, however the steps are sliced', () => {
    const whole = beginOn(north, { seed: 7 })
    advance(whole, 3000)
    const sliced = beginOn(north, { seed: 7 })
    for (const steps of [1, 999, 1500, 500]) advance(sliced, steps)
    expect(finishTour(sliced)).toEqual(finishTour(whole))
  })

  it('comes within one per cent of its best from different seeds', () => {
    const values = [northern, ...[2, 3, 4].map((seed) => build(north, seed))].map(({ value }) => value)
    expect(Math.min(...values)).toBeGreaterThan(0.99 * Math.max(...values))
  })
})
