import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { Type } from 'typebox'
import { Value } from 'typebox/value'
import { expect, it } from 'vitest'
import { separationDeg } from '../../server/sky/angles.ts'
import { OUTREACH } from '../support/evenings.ts'

// XHIP (Anderson & Francis 2012), based on the Hipparcos Catalogue (ESA 1997), as the drawing library ships it.
const StarFile = Type.Object({
  features: Type.Array(
    Type.Object({
      id: Type.Number(),
      properties: Type.Object({ mag: Type.Number(), bv: Type.String() }),
      geometry: Type.Object({ coordinates: Type.Tuple([Type.Number(), Type.Number()]) }),
    }),
  ),
})

function readStars() {
  const path = createRequire(import.meta.url).resolve('d3-celestial/data/stars.14.json')
  const { features } = Value.Parse(StarFile, JSON.parse(readFileSync(path, 'utf8')))
  return new Map(
    features.map(({ id, properties, geometry }) => [
      id,
      {
        magnitude: properties.mag,
        bv: properties.bv,
        raDeg: (geometry.coordinates[0] + 360) % 360,
        decDeg: geometry.coordinates[1],
      },
    ]),
  )
}

const stars = readStars()
const objects = OUTREACH
const starOf = (hip: number) => {
  const star = stars.get(hip)
  if (star === undefined) throw new Error(`no HIP ${hip}`)
  return star
}

it('writes the published value of every star wherever a row says it does', () => {
  let compared = 0
  for (const { key, sources, raDeg, decDeg, magnitude, bv } of objects) {
    if (sources.raDeg !== 'XHIP') continue
    const star = starOf(Number(key.slice('hip'.length)))
    expect(Math.abs((raDeg ?? Number.NaN) - star.raDeg), key).toBeLessThan(1e-4)
    expect(Math.abs((decDeg ?? Number.NaN) - star.decDeg), key).toBeLessThan(1e-4)
    if (sources.magnitude === 'XHIP') expect(magnitude, key).toBe(star.magnitude)
    if (sources.bv === 'XHIP') expect(bv, key).toBe(Number(star.bv))
    compared += 1
  }
  const stars = objects.filter(({ kind }) => ['double', 'star', 'red-star'].includes(kind))
  // Only the double that a famous list took for a cloud is too faint for the star table.
  expect(compared).toBe(stars.length - stars.filter(({ key }) => key === 'm40').length)
})

it('finds the two stars of a double about as bright together as the published light of its place', () => {
  for (const { key, kind, magnitude, componentMagnitudes } of objects) {
    if (kind !== 'double' || key === 'm40') continue
    // Where the companion has an entry of its own, the published light is that of the brighter star alone.
    const { magnitude: published } = starOf(Number(key.slice('hip'.length)))
    const nearest = Math.min(
      ...[magnitude ?? 99, componentMagnitudes?.[0] ?? 99].map((each) => Math.abs(each - published)),
    )
    expect(nearest, key).toBeLessThan(0.4)
  }
})

it("puts an asterism's middle, light and field where its stars are", () => {
  for (const { key, kind, raDeg, decDeg, magnitude, hips, fieldDeg } of objects) {
    if (kind !== 'asterism') continue
    const members = hips.map(starOf)
    const light = members.reduce((sum, star) => sum + 10 ** (-0.4 * star.magnitude), 0)
    expect(-2.5 * Math.log10(light), key).toBeCloseTo(magnitude ?? Number.NaN, 1)
    for (const star of members) {
      const fromMiddle = separationDeg(raDeg ?? Number.NaN, decDeg ?? Number.NaN, star.raDeg, star.decDeg)
      expect(fromMiddle, key).toBeLessThan((fieldDeg ?? 0) * 0.75)
      for (const end of members)
        expect(separationDeg(star.raDeg, star.decDeg, end.raDeg, end.decDeg), key).toBeLessThan(fieldDeg ?? 0)
    }
  }
})
