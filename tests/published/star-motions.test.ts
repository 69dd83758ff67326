import { expect, it } from 'vitest'
import { starRows } from '../../db/catalogue/rows.ts'

const stars = starRows()

// Yearly motions in arcseconds of stars that are known for it, as the tables of large proper motion give them; from memory.
it.each([
  ['Groombridge 1830', 57939, 7.06],
  ['Lacaille 9352', 114046, 6.9],
  ['61 Cygni A', 104214, 5.28],
  ['61 Cygni B', 104217, 5.17],
  ['Lalande 21185', 54035, 4.8],
  ['Epsilon Indi', 108870, 4.7],
  ['40 Eridani A', 19849, 4.09],
  ['Mu Cassiopeiae', 5336, 3.78],
  ['Alpha Centauri A', 71683, 3.7],
  ['Lacaille 8760', 105090, 3.45],
  ['82 Eridani', 15510, 3.12],
  ['Arcturus', 69673, 2.28],
  ['Sirius', 32349, 1.34],
  ['Procyon', 37279, 1.26],
  ['Altair', 97649, 0.66],
  ['Vega', 91262, 0.35],
])('%s (HIP %i) moves %f arcseconds a year', (_name, hip, arcsecYr) => {
  const star = stars.get(hip)
  expect(Math.hypot(star?.pmRaMasYr ?? 0, star?.pmDecMasYr ?? 0) / 1000).toBeCloseTo(arcsecYr, 1)
})

// Distances in light-years, round, as any textbook gives them; from memory.
it.each([
  ['Alpha Centauri', 71683, 4.4],
  ['Sirius', 32349, 8.6],
  ['Epsilon Eridani', 16537, 10.5],
  ['61 Cygni', 104214, 11.4],
  ['Procyon', 37279, 11.5],
  ['Tau Ceti', 8102, 11.9],
  ['Altair', 97649, 16.7],
  ['Fomalhaut', 113368, 25.1],
  ['Vega', 91262, 25],
  ['Arcturus', 69673, 36.7],
  ['Capella', 24608, 42.9],
  ['Aldebaran', 21421, 65.3],
  ['Regulus', 49669, 79.3],
])('%s (HIP %i) is %f light-years away', (_name, hip, lightYears) => {
  const found = 3261.56 / (stars.get(hip)?.parallaxMas ?? 0)
  expect(found / lightYears).toBeGreaterThan(0.97)
  expect(found / lightYears).toBeLessThan(1.03)
})

// Places at J2000.0 (ICRS) in degrees and V, the Hipparcos Catalogue; from memory.
it.each([
  ['Sirius', 32349, 101.287, -16.716, -1.44],
  ['Vega', 91262, 279.235, 38.784, 0.03],
  ['Arcturus', 69673, 213.915, 19.182, -0.05],
  ['Polaris', 11767, 37.955, 89.264, 1.97],
  ['Alpha Centauri A', 71683, 219.902, -60.834, -0.01],
  ['Betelgeuse', 27989, 88.793, 7.407, 0.45],
  ['Antares', 80763, 247.352, -26.432, 1.06],
  ['Deneb', 102098, 310.358, 45.28, 1.25],
  ['Aldebaran', 21421, 68.98, 16.509, 0.87],
  ['Spica', 65474, 201.298, -11.161, 0.98],
])('%s (HIP %i) stands at %f, %f and shines with V %f', (_name, hip, raDeg, decDeg, v) => {
  const star = stars.get(hip)
  expect(star?.raDeg).toBeCloseTo(raDeg, 2)
  expect(star?.decDeg).toBeCloseTo(decDeg, 2)
  expect(star?.magnitude).toBeCloseTo(v, 1)
})
