import { expect, it } from 'vitest'
import { readMoonFeatures } from '../../db/catalogue/moon-features.ts'
import { sourceCounts } from '../../db/catalogue/outreach.ts'
import { starNames, starRows } from '../../db/catalogue/rows.ts'
import { constellationOf } from '../../server/sky/constellation.ts'
import type { ObjectKind, ShowObject } from '../../server/tours/target.ts'
import { OUTREACH } from '../support/evenings.ts'

const objects = OUTREACH
const ofKind = (...kinds: readonly ObjectKind[]) => objects.filter(({ kind }) => kinds.includes(kind))
/** What lies beyond the stars that have names of their own. */
const deepSky = ofKind('open-cluster', 'globular', 'galaxy', 'planetary', 'nebula', 'remnant')
const find = (key: string): ShowObject => {
  const found = objects.find((object) => object.key === key)
  if (found === undefined) throw new Error(`no ${key}`)
  return found
}

it('holds the Moon, seven planets, and enough of every kind for a year of evenings', () => {
  expect(ofKind('moon').map(({ key }) => key)).toEqual(['moon'])
  expect(ofKind('planet').map(({ key }) => key)).toEqual('mercury venus mars jupiter saturn uranus neptune'.split(' '))
  expect(deepSky.length).toBeGreaterThanOrEqual(420)
  expect(ofKind('double').length).toBeGreaterThanOrEqual(70)
  expect(
    ofKind('star', 'red-star').filter(({ magnitudeRange }) => magnitudeRange !== null).length,
  ).toBeGreaterThanOrEqual(25)
  expect(ofKind('asterism').length).toBeGreaterThanOrEqual(20)
  expect(ofKind('planet-moon').map(({ key }) => key)).toEqual(
    expect.arrayContaining('io europa ganymede callisto titan'.split(' ')),
  )
  expect(ofKind('meteor-shower').length).toBeGreaterThanOrEqual(14)
  expect(ofKind('bare-eye').length).toBeGreaterThanOrEqual(10)
  expect(readMoonFeatures().length).toBeGreaterThanOrEqual(70)
})

it('holds every number of the first famous list, 1 to 110, and the 60 brightest stars that have a name', () => {
  const names = new Set(
    objects.flatMap(({ key, designations }) => [key, ...designations.map((name) => name.toLowerCase())]),
  )
  const numbers = Array.from({ length: 110 }, (_, i) => `m${i + 1}`)
  expect(numbers.filter((name) => !names.has(name))).toEqual([])
  const shown = new Set(ofKind('star', 'red-star', 'double').flatMap(({ key, designations }) => [key, ...designations]))
  const named = new Map([...starNames()].filter(([, { name }]) => name !== ''))
  const brightest = [...starRows().values()]
    .filter(({ hip }) => named.has(hip))
    .sort((a, b) => a.magnitude - b.magnitude)
  const missing = brightest.slice(0, 60).filter(({ hip }) => !shown.has(`hip${hip}`) && !shown.has(`HIP ${hip}`))
  expect(missing.map(({ hip }) => named.get(hip)?.name)).toEqual([])
})

it('serves both hemispheres', () => {
  const beyond = (isThere: (decDeg: number) => boolean) =>
    deepSky.filter(({ decDeg }) => decDeg !== null && isThere(decDeg))
  expect(beyond((decDeg) => decDeg > 20).length).toBeGreaterThanOrEqual(130)
  expect(beyond((decDeg) => decDeg < -20).length).toBeGreaterThanOrEqual(130)
  const doubles = ofKind('double').filter(({ decDeg }) => decDeg !== null && decDeg < -20)
  expect(doubles.length).toBeGreaterThanOrEqual(12)
})

it('has the showpieces of a northern winter and of a southern one', () => {
  const north = 'moon saturn hip95947 m45 ngc869 m57 m15 m42 m31 m35 m36 m37 m38 m34 hip65378 hip36850 hip91919'
  const south = 'jupiter ngc5139 hip71683 ngc4755 ngc104 ngc3372 ngc3532 hip60718 m6 m7 m8 m22 m4 m11 m17 m20'
  for (const key of `${north} ${south}`.split(' ')) expect(find(key).appeal, key).toBeGreaterThan(0.25)
})

it('names each place by the constellation around it', () => {
  for (const { key, raDeg, decDeg, constellation } of objects)
    if (raDeg !== null && decDeg !== null) expect(constellationOf(raDeg, decDeg), key).toBe(constellation)
})

it('gives the wanderers no place of their own', () => {
  for (const body of ofKind('moon', 'planet')) {
    expect([body.raDeg, body.decDeg, body.constellation, body.magnitude]).toEqual([null, null, null, null])
    expect(body.body).toBe(body.key)
  }
})

const magPerArcsec2 = (magnitude: number, areaArcmin2: number) => magnitude + 2.5 * Math.log10(areaArcmin2 * 3600)

it.each<[ObjectKind, number, number]>([
  ['galaxy', 20, 24],
  ['planetary', 13.5, 21.5],
  ['nebula', 19, 22.5],
  ['remnant', 20, 22.6],
])('gives every %s a surface brightness between %d and %d magnitudes per square arcsecond', (kind, low, high) => {
  for (const { key, magnitude, majorArcmin, minorArcmin } of ofKind(kind)) {
    const area = (Math.PI / 4) * (majorArcmin ?? 0) * (minorArcmin ?? 0)
    const surface = magPerArcsec2(magnitude ?? Number.NaN, area)
    expect(surface, key).toBeGreaterThan(low)
    expect(surface, key).toBeLessThan(high)
  }
})

it('gives every globular a surface brightness between 16 and 21.5 inside its half-light radius, and a look that is larger', () => {
  for (const { key, magnitude, halfLightArcmin, majorArcmin } of ofKind('globular')) {
    const radius = halfLightArcmin ?? Number.NaN
    const surface = magPerArcsec2((magnitude ?? Number.NaN) + 2.5 * Math.log10(2), Math.PI * radius ** 2)
    expect(surface, key).toBeGreaterThan(16)
    expect(surface, key).toBeLessThan(21.5)
    expect(majorArcmin, key).toBeGreaterThan(2 * radius)
  }
})

it('never lets the brightest star of a cluster outshine the whole of it', () => {
  for (const { key, magnitude, brightestStarMag } of ofKind('open-cluster').filter(
    ({ key }) => !IN_FRONT.includes(key),
  ))
    expect(brightestStarMag, key).toBeGreaterThan(magnitude ?? Number.NaN)
})
/** Clusters whose brightest star is not one of their own and is left out of their magnitude. */
const IN_FRONT = ['ngc457', 'm103']

it("adds the light of a double's two stars up to its magnitude", () => {
  for (const { key, magnitude, componentMagnitudes } of ofKind('double')) {
    const light = (componentMagnitudes ?? []).reduce((sum, each) => sum + 10 ** (-0.4 * each), 0)
    expect(-2.5 * Math.log10(light), key).toBeCloseTo(magnitude ?? Number.NaN, 1)
  }
})

it('puts the Moon and Saturn above all, and a faint galaxy below a red star', () => {
  const best = [...objects].sort((a, b) => b.appeal - a.appeal).slice(0, 2)
  expect(best.map(({ key }) => key).sort()).toEqual(['moon', 'saturn'])
  expect(find('m101').appeal).toBeLessThan(find('hip62223').appeal)
})

it('lets two telescopes show the Moon and a bright planet, and one anything else', () => {
  const shared = objects.filter(({ atOnce }) => atOnce !== 1)
  expect(shared.map(({ key, atOnce }) => `${key} ${atOnce}`)).toEqual(['moon 2', 'venus 2', 'jupiter 2', 'saturn 2'])
})

it('says of every value whether it was published or comes from memory', () => {
  const counts = sourceCounts(objects)
  console.log('values of the outreach list by source:', counts)
  const sourced = objects.reduce((sum, { sources }) => sum + Object.keys(sources).length, 0)
  expect(Object.values(counts).reduce((sum, count) => sum + count, 0)).toBe(sourced)
  expect(sourceCounts([find('m13')])).toMatchObject({ published: 6, 'from memory': 4 })
  expect(sourceCounts([find('hip91262')]).published).toBe(4)
})
