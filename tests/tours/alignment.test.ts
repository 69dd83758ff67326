import { describe, expect, it } from 'vitest'
import { wrap180 } from '../../server/sky/angles.ts'
import { apparentAltitudeDeg } from '../../server/sky/refraction.ts'
import { starHorizontal } from '../../server/sky/star.ts'
import { type AlignmentPair, alignmentPairs } from '../../server/tours/alignment.ts'
import { lightsOver, type NamedBody } from '../../server/tours/alignment-lights.ts'
import { alignmentStars, centrable } from '../../server/tours/alignment-stars.ts'
import type { Night } from '../../server/tours/night.ts'
import { meanErrorFactor } from '../../server/tours/pointing-error.ts'
import { apartDeg } from '../../server/tours/sky-at.ts'
import { skylineAt } from '../../server/tours/skyline.ts'
import type { MountKind } from '../../server/tours/telescope.ts'
import { brightStars } from '../support/bright-stars.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'

const stars = brightStars()
const BODIES: readonly NamedBody[] = [
  { key: 'moon', name: 'Moon' },
  { key: 'venus', name: 'Venus' },
  { key: 'mars', name: 'Mars' },
  { key: 'jupiter', name: 'Jupiter' },
  { key: 'saturn', name: 'Saturn' },
]
function ableStars(night: Night, at: Date) {
  const lights = lightsOver(stars, BODIES, at, night.site)
  return alignmentStars(centrable(lights, night, at), lights)
}
const pairsOf = (night: Night, at: string | Date, targets: Parameters<typeof alignmentPairs>[0]['targets'] = []) =>
  alignmentPairs({ stars, bodies: BODIES, night, at: new Date(at), targets })
const namesOf = (pairs: readonly AlignmentPair[]) => pairs.map((pair) => pair.stars.map(({ name }) => name).join('+'))

const DARK = '2026-12-17T19:00:00Z'
/** Vega goes with Capella and with Aldebaran, all three alone and of the first magnitude. */
const TWO_PAIRS = '2026-12-17T17:28:00Z'
/** Dark moments through the year, 22:00 by the clocks of the site or close to it. */
const darkMoments = (hourUtc: number, months: readonly number[]) =>
  months.map((month) => new Date(Date.UTC(2026, month, 11, hourUtc)))
const EVENINGS = [
  ...darkMoments(21, [0, 1, 2, 3, 7, 8, 9, 10, 11]).map((at) => ({ night: demoNight, at })),
  ...darkMoments(11, [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10]).map((at) => ({ night: southernNight, at })),
]

/** Heights and azimuths star by star, by the way that the pairs do not take. */
function placesAt(night: Night, at: Date) {
  return stars
    .filter(({ magnitude }) => magnitude <= 2)
    .map(({ place }) => starHorizontal(place, at, night.site))
    .map(({ altitudeDeg, azimuthDeg }) => ({ altitudeDeg: apparentAltitudeDeg(altitudeDeg), azimuthDeg }))
}

const isFree = (night: Night, { altitudeDeg, azimuthDeg }: { altitudeDeg: number; azimuthDeg: number }) =>
  altitudeDeg >= 20 && altitudeDeg <= 65 && altitudeDeg >= skylineAt(night.site.horizon, azimuthDeg).altitudeDeg + 2

/** Whether two stars stay between 20 and 65 degrees, clear of the trees, 90 to 160 degrees of azimuth apart, for twenty minutes. */
function isWidePairThere(night: Night, at: Date): boolean {
  const later = placesAt(night, new Date(at.getTime() + 20 * 60_000))
  const free = placesAt(night, at).filter((place, i) => {
    const then = later[i]
    return isFree(night, place) && then !== undefined && isFree(night, then)
  })
  return free.some((a) =>
    free.some((b) => {
      const apart = Math.abs(wrap180(a.azimuthDeg - b.azimuthDeg))
      return apart >= 90 && apart <= 160
    }),
  )
}

describe('the two stars to align on', () => {
  it('are Vega and Capella on a winter evening in the north', () => {
    expect(namesOf(pairsOf(demoNight, '2026-12-17T17:00:00Z'))[0]).toBe('Vega+Capella')
  })

  it('stand 20 to 65 degrees high and 90 to 160 degrees apart wherever the sky has such a pair', () => {
    let seen = 0
    for (const { night, at } of EVENINGS) {
      if (!isWidePairThere(night, at)) continue
      seen++
      const [best] = pairsOf(night, at)
      expect(best, at.toISOString()).toBeDefined()
      expect(best?.azimuthApartDeg).toBeGreaterThanOrEqual(90)
      expect(best?.azimuthApartDeg).toBeLessThanOrEqual(160)
      for (const { direction } of best?.stars ?? []) expect(isFree(night, direction), at.toISOString()).toBe(true)
    }
    expect(seen).toBeGreaterThan(15)
  })

  it('are at most three pairs, none fainter than 2, all between 15 and 75 degrees, no star in all three', () => {
    for (const { night, at } of EVENINGS) {
      const pairs = pairsOf(night, at)
      expect(pairs.length).toBeLessThanOrEqual(3)
      const all = pairs.flatMap((pair) => pair.stars)
      for (const { magnitude, direction } of all) {
        expect(magnitude).toBeLessThanOrEqual(2)
        expect(direction.altitudeDeg).toBeGreaterThanOrEqual(15)
        expect(direction.altitudeDeg).toBeLessThanOrEqual(75)
      }
      for (const { key } of all) expect(all.filter((star) => star.key === key).length).toBeLessThanOrEqual(2)
    }
  })

  it('are none by day, nor before the sky is dark enough to find them', () => {
    expect(pairsOf(demoNight, '2026-12-17T12:00:00Z')).toEqual([])
    expect(pairsOf(demoNight, '2026-12-17T15:40:00Z')).toEqual([])
  })

  it('are none through thick haze', () => {
    const hazy = { ...demoNight, settings: { ...demoNight.settings, extinctionMag: 1, thinCloud: 1 } }
    expect(pairsOf(hazy, '2026-12-17T16:05:00Z')).toEqual([])
    expect(pairsOf(demoNight, '2026-12-17T16:05:00Z')).not.toEqual([])
  })

  it('come as near to 90 degrees apart as a gap between walls allows', () => {
    const horizon = [
      { azimuthDeg: 0, altitudeDeg: 60, name: 'wall' },
      { azimuthDeg: 120, altitudeDeg: 60, name: 'wall' },
      { azimuthDeg: 121, altitudeDeg: 0, name: 'field' },
      { azimuthDeg: 200, altitudeDeg: 0, name: 'field' },
      { azimuthDeg: 201, altitudeDeg: 60, name: 'wall' },
    ]
    const walled = withMount({ ...demoNight, site: { ...demoNight.site, horizon } }, 'equatorial', 60)
    let compared = 0
    for (let hour = 17; hour < 29; hour++) {
      const at = new Date(Date.UTC(2026, 11, 17, hour))
      const able = ableStars(walled, at).map(({ direction }) => direction)
      for (const { altitudeDeg, azimuthDeg } of able) {
        expect(altitudeDeg).toBeGreaterThanOrEqual(skylineAt(horizon, azimuthDeg).altitudeDeg + 2)
      }
      if (able.length < 3) continue
      const apart = able.flatMap((a) => able.map((b) => Math.abs(wrap180(a.azimuthDeg - b.azimuthDeg))))
      const widest = Math.max(...apart)
      expect(widest).toBeLessThan(90)
      expect(pairsOf(walled, at)[0]?.azimuthApartDeg).toBe(widest)
      compared++
    }
    expect(compared).toBeGreaterThan(4)
  })

  it('are still clear of the trees twenty minutes later', () => {
    const byKey = new Map(stars.map(({ key, place }) => [key, place]))
    for (let minute = 0; minute < 12 * 60; minute += 10) {
      const at = new Date(Date.UTC(2026, 11, 17, 17, minute))
      for (const { key } of ableStars(demoNight, at)) {
        const place = byKey.get(key)
        if (!place) throw new Error(key)
        const { altitudeDeg, azimuthDeg } = starHorizontal(place, new Date(at.getTime() + 20 * 60_000), demoNight.site)
        const leastDeg = Math.max(15, skylineAt(demoNight.site.horizon, azimuthDeg).altitudeDeg + 2)
        expect(apparentAltitudeDeg(altitudeDeg)).toBeGreaterThanOrEqual(leastDeg - 0.001)
      }
    }
  })

  it('are within reach of every driven mount, and of no concern to one that is pushed by hand', () => {
    const heights = (night: Night) =>
      pairsOf(night, DARK).flatMap((pair) => pair.stars.map(({ direction }) => direction.altitudeDeg))
    expect(Math.max(...heights(withMount(demoNight, 'equatorial', 45)))).toBeLessThanOrEqual(45)
    expect(Math.max(...heights(withMount(demoNight, 'altaz-hand', 45)))).toBeGreaterThan(45)
  })

  it('are told apart from stars that might be taken for them', () => {
    const isAloneAt = (night: Night, at: string) =>
      Object.fromEntries(ableStars(night, new Date(at)).map(({ name, lookAlike }) => [name, lookAlike === null]))
    // Separations and magnitudes from memory: Hadar stands 4.4 degrees from Rigil Kentaurus, Castor 4.5 from Pollux.
    expect(isAloneAt(southernNight, '2027-07-10T08:30:00Z')).toMatchObject({
      Antares: true,
      Arcturus: true,
      Hadar: false,
      'Rigil Kentaurus': false,
    })
    expect(isAloneAt(demoNight, '2026-12-17T21:00:00Z')).toMatchObject({ Aldebaran: true, Castor: false })
  })

  it('leave out Polaris at an alt-az mount where another pair keeps the rules, and take it at others', () => {
    const horizon = [
      { azimuthDeg: 30, altitudeDeg: 0, name: '' },
      { azimuthDeg: 31, altitudeDeg: 70, name: 'wall' },
      { azimuthDeg: 90, altitudeDeg: 70, name: 'wall' },
      { azimuthDeg: 91, altitudeDeg: 0, name: '' },
    ]
    const walled = { ...demoNight, site: { ...demoNight.site, horizon } }
    const taken = (mount: 'altaz-driven' | 'equatorial') => {
      const nights = Array.from({ length: 72 }, (_, i) => new Date(Date.UTC(2026, 11, 17, 17, 10 * i)))
      return nights.filter((at) =>
        namesOf(pairsOf(withMount(walled, mount, 75), at).slice(0, 1))[0]?.includes('Polaris'),
      )
    }
    expect(taken('altaz-driven').length).toBeLessThan(taken('equatorial').length)
  })

  it('are named by magnitude: of two pairs that keep the rules, the plainer comes first', () => {
    const plainness = ({ stars: two }: AlignmentPair) =>
      two.filter(({ magnitude }) => magnitude <= 1.5).length + two.filter(({ lookAlike }) => lookAlike === null).length
    const keepsRules = ({ stars: two, separationDeg, azimuthApartDeg }: AlignmentPair) =>
      azimuthApartDeg >= 90 &&
      azimuthApartDeg <= 160 &&
      separationDeg >= 45 &&
      separationDeg <= 135 &&
      two.every(
        ({ direction, isNearPole }) => !isNearPole && direction.altitudeDeg >= 20 && direction.altitudeDeg <= 65,
      )
    for (const { night, at } of EVENINGS) {
      const grades = pairsOf(night, at).filter(keepsRules).map(plainness)
      expect(grades).toEqual(grades.toSorted((a, b) => b - a))
    }
  })
})

const withMount = (night: Night, mount: MountKind, ceilingDeg: number): Night => ({
  ...night,
  stations: night.stations.map((station) => ({
    ...station,
    telescope: station.telescope && { ...station.telescope, mount, ceilingDeg },
  })),
})

describe('the pointing error that is left', () => {
  it('decides between pairs that are equally plain, by the targets of the night', () => {
    const able = ableStars(demoNight, new Date(TWO_PAIRS))
    const targets = [{ altitudeDeg: 40, azimuthDeg: 180 }]
    const [best] = pairsOf(demoNight, TWO_PAIRS, targets)
    if (!best) throw new Error('There is no pair')
    const [one, two] = best.stars
    expect(best.meanErrorFactor).toBe(meanErrorFactor(one.direction, two.direction, targets))
    const isPlain = ({ magnitude, lookAlike, direction: { altitudeDeg } }: (typeof able)[number]) =>
      magnitude <= 1.5 && lookAlike === null && altitudeDeg >= 20 && altitudeDeg <= 65
    expect([isPlain(one), isPlain(two)]).toEqual([true, true])
    const rivals = able.filter(isPlain).flatMap((a) => able.filter(isPlain).map((b) => [a, b] as const))
    let seen = 0
    for (const [a, b] of rivals) {
      const azimuthApartDeg = Math.abs(wrap180(a.direction.azimuthDeg - b.direction.azimuthDeg))
      const apart = apartDeg(a.direction, b.direction)
      if (azimuthApartDeg < 90 || azimuthApartDeg > 160 || apart < 45 || apart > 135) continue
      seen++
      expect(meanErrorFactor(a.direction, b.direction, targets)).toBeGreaterThanOrEqual(best.meanErrorFactor)
    }
    expect(seen).toBeGreaterThan(2) // each pair comes twice
  })
})
