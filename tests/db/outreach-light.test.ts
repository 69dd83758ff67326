import { expect, it } from 'vitest'
import { starRows } from '../../db/catalogue/rows.ts'
import { separationDeg } from '../../server/sky/angles.ts'
import { isColourContrast } from '../../server/tours/colours.ts'
import { OUTREACH } from '../support/evenings.ts'

const objects = OUTREACH

it('has of each cluster with five stars or more to V 7 in its width just those of the star table', () => {
  const bright = [...starRows().values()].filter(({ magnitude }) => magnitude <= 7)
  for (const { key, raDeg, decDeg, majorArcmin, starMagnitudes } of objects.filter(
    ({ kind }) => kind === 'open-cluster',
  )) {
    const inside = bright
      .filter((star) => separationDeg(star.raDeg, star.decDeg, raDeg ?? 0, decDeg ?? 0) <= (majorArcmin ?? 0) / 120)
      .map(({ magnitude }) => magnitude)
      .sort((a, b) => a - b)
    expect(starMagnitudes, key).toEqual(inside.length < 5 ? [] : inside)
  }
  expect(objects.filter(({ starMagnitudes }) => starMagnitudes.length > 0).length).toBeGreaterThan(5)
})

it('gives every globular the magnitude of its horizontal branch, 0.6 on average from a distance that fits its row', () => {
  const offs = objects.flatMap(({ branchMag, distanceLy }) =>
    branchMag === null || distanceLy === null ? [] : [branchMag - 5 * Math.log10(distanceLy / 32.616)],
  )
  expect(offs.length).toBeGreaterThan(20)
  // 0.6 without dust between, and up to two and a half magnitudes of it on the way to NGC 6544
  for (const off of offs) {
    expect(off).toBeGreaterThan(0.3)
    expect(off).toBeLessThan(3.2)
  }
})

it('gives a core to the few galaxies whose hearts their discs do not tell of, each fainter and smaller than the whole', () => {
  const hearted = objects.filter(({ coreMagnitude }) => coreMagnitude !== null)
  expect(hearted.map(({ key }) => key)).toContain('m31')
  for (const { key, kind, coreMagnitude, coreArcmin, magnitude, minorArcmin } of hearted) {
    expect(kind, key).toBe('galaxy')
    expect(coreMagnitude, key).toBeGreaterThan(magnitude ?? 99)
    expect(coreArcmin, key).toBeLessThan((minorArcmin ?? 0) / 2)
  }
})

it('calls gold beside blue two colours, and two whites, two golds or yellow beside orange one', () => {
  const contrasts = objects.flatMap(({ name, colours }) => (colours && isColourContrast(colours) ? [name] : []))
  for (const name of ['Albireo', 'Almach', 'Iota Cancri', '145 Canis Majoris', 'Achird'])
    expect(contrasts).toContain(name)
  for (const name of ['Mizar', 'Castor', 'Algieba', '61 Cygni', 'Rigil Kentaurus', 'Polaris'])
    expect(contrasts).not.toContain(name)
})
