import { describe, expect, it } from 'vitest'
import { separationDeg, wrap180 } from '../../server/sky/angles.ts'
import { greenwichSiderealDeg, instantOf } from '../../server/sky/engine.ts'
import { toHorizontal } from '../../server/sky/horizontal.ts'
import { starHorizontal, starMeanOfDate, starOfDate } from '../../server/sky/star.ts'

const hours = (h: number, m: number, s: number): number => 15 * (h + m / 60 + s / 3600)
const arc = (d: number, m: number, s: number): number => d + m / 60 + s / 3600
const ARCSEC = 1 / 3600

/** Meeus's star of examples 21.b and 23.a: theta Persei, its motion in seconds of time and arcseconds a year. */
const THETA_PERSEI = {
  raDeg: hours(2, 44, 11.986),
  decDeg: arc(49, 13, 42.48),
  pmRaMasYr: 0.03425 * 15_000 * Math.cos((arc(49, 13, 42.48) * Math.PI) / 180),
  pmDecMasYr: -89.5,
  parallaxMas: 0,
}
const TT_MINUS_UTC_DAYS = 69.184 / 86_400
const UNIX_EPOCH_JD = 2_440_587.5
const NOVEMBER_2028 = new Date(Math.round((2_462_088.69 - TT_MINUS_UTC_DAYS - UNIX_EPOCH_JD) * 86_400_000))
const siderealDeg = (iso: string): number => greenwichSiderealDeg(instantOf(new Date(iso)))

describe('Meeus, Astronomical Algorithms, 2nd ed., worked examples', () => {
  it('12.a: apparent sidereal time at Greenwich on 10 April 1987', () => {
    const offDeg = siderealDeg('1987-04-10T00:00:00Z') - hours(13, 10, 46.1351)
    expect(Math.abs(offDeg) / 15).toBeLessThan(0.01 / 3600)
  })

  it('13.b: Venus over Washington, azimuth given from the south', () => {
    const raDeg = hours(23, 9, 16.641)
    const hourAngleDeg = siderealDeg('1987-04-10T19:21:00Z') - arc(77, 3, 56) - raDeg
    const { altitudeDeg, azimuthDeg } = toHorizontal(hourAngleDeg, -arc(6, 43, 11.61), arc(38, 55, 17))
    expect(altitudeDeg).toBeCloseTo(15.1249, 3)
    expect(wrap180(azimuthDeg - 180)).toBeCloseTo(68.0337, 3)
  })

  it('17.a: Arcturus and Spica', () => {
    const apartDeg = separationDeg(hours(14, 15, 39.7), arc(19, 10, 57), hours(13, 25, 11.6), -arc(11, 9, 41))
    expect(apartDeg).toBeCloseTo(32.793, 4)
  })

  it('21.b: mean place of theta Persei in November 2028, 0.1" for the newer precession', () => {
    const mean = starMeanOfDate(THETA_PERSEI, NOVEMBER_2028)
    const missDeg = separationDeg(mean.raDeg, mean.decDeg, hours(2, 46, 11.331), arc(49, 20, 54.54))
    expect(missDeg).toBeLessThan(0.1 * ARCSEC)
  })

  it('23.a: apparent place of theta Persei in November 2028', () => {
    const seen = starOfDate(THETA_PERSEI, NOVEMBER_2028)
    const missDeg = separationDeg(seen.raDeg, seen.decDeg, hours(2, 46, 14.39), arc(49, 21, 7.45))
    expect(missDeg).toBeLessThan(0.1 * ARCSEC)
  })
})

describe('ERFA, the open edition of the IAU standard routines', () => {
  // Azimuth and altitude computed with ERFA 2.0.1 (eraAtco13), UT1 = UTC, no polar motion, no air.
  it.each([
    [
      'Sirius',
      [101.28715533, -16.71611586, -546.01, -1223.07, 379.21],
      [48.3, 11.2, 520],
      '2026-04-10T20:00Z',
      227.296003375,
      11.846130579,
    ],
    [
      'Sirius',
      [101.28715533, -16.71611586, -546.01, -1223.07, 379.21],
      [-33.9, 151.2, 40],
      '2027-11-03T03:30Z',
      219.724531816,
      -28.979211886,
    ],
    [
      'Arcturus',
      [213.91530029, 19.18240916, -1093.39, -2000.06, 88.83],
      [48.3, 11.2, 520],
      '2029-06-21T13:15Z',
      74.038123008,
      11.330697229,
    ],
    [
      'Arcturus',
      [213.91530029, 19.18240916, -1093.39, -2000.06, 88.83],
      [19.8, -155.5, 4205],
      '2027-11-03T03:30Z',
      286.487750709,
      10.885026867,
    ],
    [
      'Polaris',
      [37.95456067, 89.26410897, 44.48, -11.85, 7.54],
      [0, -78.5, 2850],
      '2029-06-21T13:15Z',
      0.183951963,
      0.589891561,
    ],
    [
      'alpha Centauri',
      [219.90206, -60.83399, -3679.25, 473.67, 754.81],
      [-33.9, 151.2, 40],
      '2029-06-21T13:15Z',
      210.878022532,
      52.96565317,
    ],
    [
      'Vega',
      [279.23473479, 38.78368896, 200.94, 286.23, 130.23],
      [69.65, 18.96, 10],
      '2027-11-03T03:30Z',
      11.634828915,
      18.962612573,
    ],
  ] as const)('puts %s where ERFA puts it, to 0.3"', (_name, star, place, at, azimuthDeg, altitudeDeg) => {
    const [raDeg, decDeg, pmRaMasYr, pmDecMasYr, parallaxMas] = star
    const [latitudeDeg, longitudeDeg, heightM] = place
    const seen = starHorizontal({ raDeg, decDeg, pmRaMasYr, pmDecMasYr, parallaxMas }, new Date(at), {
      latitudeDeg,
      longitudeDeg,
      heightM,
    })
    const missDeg = separationDeg(seen.azimuthDeg, seen.altitudeDeg, azimuthDeg, altitudeDeg)
    expect(missDeg).toBeLessThan(0.3 * ARCSEC)
  })
})
