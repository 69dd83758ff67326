import { describe, expect, it } from 'vitest'
import { chanceAt } from '../../server/sight/chance.ts'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { limitOf } from '../../server/sight/limit.ts'
import { lookOf } from '../../server/sight/look.ts'
import { cdFromMag } from '../../server/sight/luminance.ts'
import { uniformMargin } from '../../server/sight/patch.ts'
import { chanceAndView, sighting } from '../../server/sight/sighting.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { darkNight, things as known, viewAt } from '../support/sight-data.ts'

const view = (apertureMm: number) => ({
  powerX: 50,
  exitPupilMm: apertureMm / 50,
  trueFieldDeg: 3,
  optics: { apertureMm, focalLengthMm: 1000, obstruction: 0, transmission: 1 / 1.33 },
})
// Field factor 2, no extinction, 50 times, 19.5 mag per square arcsecond.
const night = { ...DEFAULT_CONDITIONS, extinctionMag: 0, noviceFactor: 2, pupilMm: 6.5, seeingArcsec: 0.01 }
const limit = (apertureMm: number) => limitOf(view(apertureMm), night)(cdFromMag(19.5), 90)

// Total V and isophotal sizes of RC3 (de Vaucouleurs et al. 1991), from memory.
const things = {
  M57: { kind: 'planetary', magnitude: 8.8, majorArcmin: 1.4, minorArcmin: 1 },
  M27: { kind: 'planetary', magnitude: 7.4, majorArcmin: 8, minorArcmin: 5.7 },
  M31: { kind: 'galaxy', magnitude: 3.44, majorArcmin: 190, minorArcmin: 60 },
  M82: { kind: 'galaxy', magnitude: 8.4, majorArcmin: 11.2, minorArcmin: 4.3 },
  M81: { kind: 'galaxy', magnitude: 6.94, majorArcmin: 26.9, minorArcmin: 14.1 },
  M51: { kind: 'galaxy', magnitude: 8.4, majorArcmin: 11.2, minorArcmin: 6.9 },
  M33: { kind: 'galaxy', magnitude: 5.72, majorArcmin: 70.8, minorArcmin: 41.7 },
  M101: { kind: 'galaxy', magnitude: 7.86, majorArcmin: 28.8, minorArcmin: 26.9 },
} as const satisfies Record<string, Subject>
type Name = keyof typeof things
const ORDER: readonly Name[] = ['M57', 'M27', 'M31', 'M82', 'M51', 'M33', 'M101']

/** Crumey's eq. 62 over growing areas of an exponential disc of 3.7 scale lengths to the catalogue's edge, or of an even shell. */
function byHand({ kind, magnitude, majorArcmin, minorArcmin }: (typeof things)[Name], apertureMm: number): number {
  const area = (Math.PI / 4) * majorArcmin * minorArcmin
  if (kind === 'planetary') return uniformMargin(limit(apertureMm), magnitude, area)
  const radii = Array.from({ length: 400 }, (_, i) => 0.02 * (i + 1))
  const margins = radii.map((x) => {
    const within = magnitude - 2.5 * Math.log10(1 - (1 + x) * Math.exp(-x))
    return uniformMargin(limit(apertureMm), within, (area * x * x) / 3.7 ** 2)
  })
  return Math.max(...margins)
}

const ways: readonly (readonly [string, (name: Name, apertureMm: number) => number])[] = [
  ['by hand', (name, apertureMm) => byHand(things[name], apertureMm)],
  ['by kind', (name, apertureMm) => lookOf(things[name], view(apertureMm))(limit(apertureMm)).lightMag],
]

describe('the order in which faint things drop out of a town sky', () => {
  for (const [way, margin] of ways)
    it.each([100, 200])(
      `holds in %i mm ${way}: M57, M27, M31, then M82 and M81 together, M51, M33, M101 last`,
      (aperture) => {
        const order = ORDER.map((name) => margin(name, aperture))
        expect(order).toEqual(order.toSorted((a, b) => b - a))
        expect(Math.abs(margin('M82', aperture) - margin('M81', aperture))).toBeLessThan(0.2)
        expect(margin('M81', aperture)).toBeGreaterThan(margin('M51', aperture))
      },
    )

  it.each([
    [100, [1.9, 0.9, 0.7, 0.4, 0.1, -0.3, -1.3]],
    [200, [2.6, 1.3, 1.2, 1, 0.7, 0.2, -0.7]],
  ] as const)('has in %i mm the margins of an independent reckoning', (aperture, margins) => {
    for (const [i, name] of ORDER.entries())
      expect(Math.abs(byHand(things[name], aperture) - (margins[i] ?? 0))).toBeLessThan(0.15)
  })

  it('leaves M51 and M101 to few newcomers in 100 mm', () => {
    const chance = (name: Name) => chanceAt(byHand(things[name], 100) - 2.5 * Math.log10(2))
    expect(chance('M51')).toBeLessThan(0.25)
    expect(chance('M101')).toBeLessThan(0.05)
    expect(chance('M57')).toBeGreaterThan(0.9)
  })
})

// Common practice, no source: what observers at public nights see come out of the dusk.
describe('as dusk falls', () => {
  const chance = (thing: Subject, apertureMm: number, sunAltitudeDeg: number, altitudeDeg: number) => {
    const geometry = { ...darkNight, altitudeDeg, sunAltitudeDeg, sunSeparationDeg: altitudeDeg - sunAltitudeDeg + 20 }
    return chanceAndView(thing, geometry, viewAt(apertureMm, apertureMm / 2.5), DEFAULT_CONDITIONS).chance
  }

  it('Venus is there from sunset on, low as it stands', () => {
    for (const sun of [0, -2, -4, -6]) expect(chance(known.venus, 102, sun, 15)).toBeGreaterThan(0.99)
  })

  it('M13 is there for most people only late in nautical twilight, and then soon for nearly all', () => {
    for (const apertureMm of [102, 150]) {
      expect(chance(known.m13, apertureMm, -6, 60)).toBeLessThan(0.1)
      expect(chance(known.m13, apertureMm, -9, 60)).toBeLessThan(0.8)
      expect(chance(known.m13, apertureMm, -12, 60)).toBeGreaterThan(0.9)
    }
  })
})

// Common practice, no source; magnitudes of the moons near opposition from memory.
describe('at Jupiter', () => {
  const beside = (name: string, magnitude: number, offArcsec: number) =>
    ({ name, magnitude, offArcsec, state: 'beside', castsShadow: false }) as const
  const jupiter: Subject = {
    ...{ kind: 'planet', body: 'jupiter', magnitude: -2.5, diameterArcsec: 44, litFraction: 1 },
    ...{ ringMajorArcsec: 0, ringMinorArcsec: 0 },
    moons: [
      beside('Io', 5.2, 110),
      beside('Europa', 5.5, 160),
      beside('Ganymede', 4.8, 280),
      beside('Callisto', 5.8, 500),
    ],
  }
  const told = (apertureMm: number, powerX: number) =>
    sighting(jupiter, darkNight, viewAt(apertureMm, powerX), DEFAULT_CONDITIONS).reasons

  it('the moons show before the belts: in 50 mm at 25 times, where the disc is still blank', () => {
    const small = told(50, 25)
    expect(small.map(({ code }) => code)).not.toContain('sight.stripes')
    expect(Number(small.find(({ code }) => code === 'sight.moons-beside')?.values?.count)).toBeGreaterThanOrEqual(3)
    const large = told(150, 120)
    expect(large.map(({ code }) => code)).toContain('sight.stripes')
    expect(Number(large.find(({ code }) => code === 'sight.moons-beside')?.values?.count)).toBeGreaterThanOrEqual(3)
  })
})
