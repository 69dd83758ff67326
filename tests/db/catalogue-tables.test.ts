import { expect, it } from 'vitest'
import { csvRows } from '../../db/catalogue/csv.ts'
import { constellationRows, starNames, starRows } from '../../db/catalogue/rows.ts'
import { constellationOf } from '../../server/sky/constellation.ts'

const stars = starRows()
const names = starNames()

it('holds the 41,411 stars to V 8, each with a whole place', () => {
  expect(stars.size).toBe(41_411)
  for (const { hip, raDeg, decDeg, magnitude, constellation } of stars.values()) {
    expect(raDeg >= 0 && raDeg < 360 && Math.abs(decDeg) <= 90 && magnitude <= 8, `${hip}`).toBe(true)
    expect(constellation).toMatch(/^[A-Z][A-Za-z]{2}$/)
  }
})

it('leaves B-V empty for no more than a few dozen stars', () => {
  const unknown = [...stars.values()].filter(({ bv }) => bv === null)
  expect(unknown.length).toBeGreaterThan(0)
  expect(unknown.length).toBeLessThan(60)
})

it('finds stars in all 88 constellations, and draws a figure in each', () => {
  const codes = [...constellationRows().keys()].sort()
  expect(codes).toHaveLength(88)
  expect([...new Set([...stars.values()].map((star) => star.constellation))].sort()).toEqual(codes)
  expect([...new Set(csvRows('lines.csv').map(([code]) => code))].sort()).toEqual(codes)
})

it('draws every figure from star to star, along no stroke longer than a hand', () => {
  for (const [code, hips = ''] of csvRows('lines.csv')) {
    const corners = hips.split(' ').map((hip) => stars.get(Number(hip)))
    expect(corners.length, code).toBeGreaterThan(1)
    for (const [i, corner] of corners.entries()) {
      const before = corners[i - 1]
      expect(corner?.magnitude, `${code} ${hips}`).toBeLessThan(7)
      if (corner && before) expect(apartDeg(corner, before), `${code} ${hips}`).toBeLessThan(31)
      if (corner && before) expect(apartDeg(corner, before)).toBeGreaterThan(0)
    }
  }
})

it('has a border where the constellation computed from the place changes', () => {
  const rows = csvRows('boundaries.csv')
  let checked = 0
  for (const [i, [first = '', second = '', part, , ra, dec]] of rows.entries()) {
    const next = rows[i + 1]
    if (next?.[2] !== part || next === undefined) continue
    const sides = bothSides([Number(ra), Number(dec)], [Number(next[4]), Number(next[5])])
    if (sides === undefined) continue
    checked += 1
    expect(sides, `${first} ${second} near ${ra}, ${dec}`).toEqual([first, second].sort())
  }
  expect(checked).toBeGreaterThan(600)
})

it('names and moves only stars that it holds', () => {
  for (const hip of names.keys()) expect(stars.has(hip), `HIP ${hip}`).toBe(true)
  for (const [hip] of csvRows('motions.csv')) expect(stars.has(Number(hip)), `HIP ${hip}`).toBe(true)
})

it('gives each star one name and each name one star', () => {
  const rows = csvRows('names.csv')
  expect(rows.length).toBeGreaterThan(300)
  expect(new Set(rows.map(([hip]) => hip)).size).toBe(rows.length)
  expect(new Set(rows.map(([, name]) => name)).size).toBe(rows.length)
})

it('knows how the sixty brightest stars move', () => {
  const brightest = [...stars.values()].sort((a, b) => a.magnitude - b.magnitude).slice(0, 60)
  const moving = new Set(csvRows('motions.csv').map(([hip]) => Number(hip)))
  for (const { hip } of brightest) expect(moving.has(hip), `HIP ${hip}`).toBe(true)
})

it('lets no star fly faster through space than the Milky Way can hold', () => {
  for (const { hip, pmRaMasYr, pmDecMasYr, parallaxMas } of stars.values()) {
    if (parallaxMas === 0) continue
    const kmPerSecond = (4.74 * Math.hypot(pmRaMasYr, pmDecMasYr)) / parallaxMas
    expect(kmPerSecond, `HIP ${hip}`).toBeLessThan(500)
  }
})

it('gives towns a zone that the machine knows and a place on the globe', () => {
  const towns = csvRows('places.csv')
  expect(towns.length).toBeGreaterThan(52_000)
  for (const zone of new Set(towns.map((town) => town[8]))) {
    expect(() => new Intl.DateTimeFormat('en', { timeZone: zone ?? '' }), zone).not.toThrow()
  }
  for (const [name, , , , , latitude, longitude, heightM] of towns) {
    expect(Math.abs(Number(latitude)) <= 90 && Math.abs(Number(longitude)) <= 180, name).toBe(true)
    expect(Number(heightM) > -430 && Number(heightM) < 5200, `${name} ${heightM}`).toBe(true)
  }
})

type Point = readonly [number, number]

/** Flat distance, good enough to tell a stroke from a slip. */
const apartDeg = (a: { raDeg: number; decDeg: number }, b: { raDeg: number; decDeg: number }): number =>
  Math.hypot(around(a.raDeg - b.raDeg) * Math.cos((a.decDeg * Math.PI) / 180), a.decDeg - b.decDeg)

const around = (deg: number): number => ((((deg + 180) % 360) + 360) % 360) - 180

/** The constellations 0.2 degrees to either side of a border's middle; undefined where it bends too much to say. */
function bothSides([ra, dec]: Point, [nextRa, nextDec]: Point): readonly string[] | undefined {
  const shrink = Math.cos(((dec + nextDec) * Math.PI) / 360)
  const east = around(nextRa - ra)
  const north = nextDec - dec
  const lengthDeg = Math.hypot(east * shrink, north)
  if (lengthDeg > 12 || lengthDeg < 0.5 || Math.abs(dec) > 80) return undefined
  return [0.2, -0.2]
    .map((stepDeg) =>
      constellationOf(
        ra + east / 2 - (stepDeg * north) / lengthDeg / shrink,
        dec + north / 2 + (stepDeg * east * shrink) / lengthDeg,
      ),
    )
    .sort()
}
