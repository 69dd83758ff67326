import { describe, expect, it } from 'vitest'
import { airmassPickering } from '../../server/sky/airmass.ts'
import { degrees, radians, separationDeg } from '../../server/sky/angles.ts'
import { rankPass, skyPass, starVectors } from '../../server/sky/pass.ts'
import { seededRandom } from '../../server/sky/random.ts'
import { apparentAltitudeDeg } from '../../server/sky/refraction.ts'
import { type StarPlace, starHorizontal } from '../../server/sky/star.ts'
import { passStarByStar } from '../bench/baseline-pass.ts'

const PLACES = [
  { latitudeDeg: 48.3, longitudeDeg: 11.2, heightM: 520 },
  { latitudeDeg: -33.9, longitudeDeg: 151.2, heightM: 40 },
  { latitudeDeg: 90, longitudeDeg: 0, heightM: 0 },
]
const INSTANTS = Array.from({ length: 6 }, (_, slot) => new Date(Date.UTC(2026, 3, 10, 18) + slot * 7_200_000))
const ARCSEC = 1 / 3600

function stars(count: number, motionMasYr: number, parallaxMas: number): StarPlace[] {
  const random = seededRandom(7)
  const motion = () => motionMasYr * (2 * random() - 1)
  return Array.from({ length: count }, () => ({
    raDeg: 360 * random(),
    decDeg: degrees(Math.asin(2 * random() - 1)),
    pmRaMasYr: motion(),
    pmDecMasYr: motion(),
    parallaxMas: parallaxMas * random(),
  }))
}

const read = (column: ArrayLike<number>, index: number): number => column[index] ?? Number.NaN

describe.each(PLACES)('the whole-sky pass at latitude $latitudeDeg', (place) => {
  const fixed = stars(200, 0, 0)
  const pass = skyPass(starVectors(fixed, INSTANTS[0] ?? new Date(0)), INSTANTS, place)

  it('agrees with the star-by-star way of the ephemeris library to 0.5" and 0.05 % of airmass', () => {
    const theirs = passStarByStar(fixed, INSTANTS, place)
    for (let index = 0; index < theirs.altitudeDeg.length; index++) {
      const missDeg = separationDeg(
        read(pass.azimuthDeg, index),
        read(pass.altitudeDeg, index),
        read(theirs.azimuthDeg, index),
        read(theirs.altitudeDeg, index),
      )
      expect(missDeg).toBeLessThan(0.5 * ARCSEC)
      expect(Math.abs(read(pass.airmass, index) / read(theirs.airmass, index) - 1)).toBeLessThan(0.0005)
    }
  })

  it('ranks as its own table says', () => {
    const ranks = rankPass(starVectors(fixed, INSTANTS[0] ?? new Date(0)), INSTANTS, place, 20)
    fixed.forEach((_, row) => {
      const seen = INSTANTS.map((_at, slot) => read(pass.altitudeDeg, slot * fixed.length + row))
      expect(read(ranks.slotsAbove, row)).toBe(seen.filter((altitudeDeg) => altitudeDeg >= 20).length)
      const bestDeg = apparentAltitudeDeg(degrees(Math.asin(read(ranks.maxSinAltitude, row))))
      expect(Math.abs(Math.sin(radians(bestDeg)) - Math.sin(radians(Math.max(...seen))))).toBeLessThan(1e-6)
    })
  })

  it('holds a number for every row, below the horizon too', () => {
    for (let index = 0; index < pass.altitudeDeg.length; index++) {
      expect(Math.abs(read(pass.altitudeDeg, index))).toBeLessThanOrEqual(90)
      expect(read(pass.azimuthDeg, index)).toBeGreaterThanOrEqual(0)
      expect(read(pass.azimuthDeg, index)).toBeLessThanOrEqual(360)
      expect(read(pass.airmass, index)).toBeGreaterThanOrEqual(1)
      expect(read(pass.airmass, index)).toBeLessThan(39)
      if (read(pass.altitudeDeg, index) <= 0) expect(read(pass.airmass, index)).toBe(airmassPickering(0))
    }
  })
})

it('carries proper motion and parallax through the night to 0.05"', () => {
  const [place] = PLACES
  if (!place) throw new Error('no place')
  const moving = stars(150, 5000, 750)
  const pass = skyPass(starVectors(moving, INSTANTS[0] ?? new Date(0)), INSTANTS, place)
  INSTANTS.forEach((at, slot) => {
    moving.forEach((star, row) => {
      const exact = starHorizontal(star, at, place)
      const index = slot * moving.length + row
      const missDeg = separationDeg(
        exact.azimuthDeg,
        apparentAltitudeDeg(exact.altitudeDeg),
        read(pass.azimuthDeg, index),
        read(pass.altitudeDeg, index),
      )
      expect(missDeg).toBeLessThan(0.05 * ARCSEC)
    })
  })
})

it('answers nothing for no rows and for no instants', () => {
  const place = { latitudeDeg: 0, longitudeDeg: 0, heightM: 0 }
  expect(skyPass(new Float64Array(0), INSTANTS, place).altitudeDeg).toHaveLength(0)
  expect(skyPass(new Float64Array([1, 0, 0]), [], place).airmass).toHaveLength(0)
  expect(rankPass(new Float64Array([1, 0, 0]), [], place, 20).slotsAbove).toEqual(new Uint16Array([0]))
})

it('puts a row exactly overhead and exactly underfoot', () => {
  const pole = { latitudeDeg: 90, longitudeDeg: 0, heightM: 0 }
  const overhead = skyPass(new Float64Array([0, 0, 1, 0, 0, -1]), INSTANTS, pole)
  expect(read(overhead.altitudeDeg, 0)).toBeGreaterThan(89.8)
  expect(read(overhead.altitudeDeg, 1)).toBeLessThan(-89.8)
  expect(read(overhead.airmass, 0)).toBeCloseTo(1, 4)
})
