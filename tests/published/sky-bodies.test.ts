import { describe, expect, it } from 'vitest'
import { bodyLook } from '../../server/sky/body.ts'
import { nextRise, nextSet } from '../../server/sky/crossing.ts'
import { jupiterFace, jupiterMoons } from '../../server/sky/jupiter.ts'
import { moonFace, sunAltitudeAtFeature } from '../../server/sky/moon-face.ts'
import { saturnRing } from '../../server/sky/saturn.ts'

/** The instant in UTC of a terrestrial (dynamical) time; the offset is 32.184 s and the leap seconds of that day. */
const terrestrial = (iso: string, offsetSec: number): Date => new Date(Date.parse(iso) - offsetSec * 1000)
const secondsFrom = (found: Date | null, iso: string): number =>
  Math.abs((found?.getTime() ?? Number.NaN) - Date.parse(iso)) / 1000

const UNIX_EPOCH_JD = 2_440_587.5
const DECEMBER_1992 = new Date(Math.round((2_448_972.50068 - 59.184 / 86_400 - UNIX_EPOCH_JD) * 86_400_000))
const APRIL_1992 = terrestrial('1992-04-12T00:00:00Z', 58.184)

describe('Meeus, Astronomical Algorithms, 2nd ed., worked examples', () => {
  it('15.a: Venus rises and sets at Boston on 20 March 1988', () => {
    const boston = { latitudeDeg: 42 + 20 / 60, longitudeDeg: -(71 + 5 / 60), heightM: 0 }
    const from = new Date('1988-03-20T00:00:00Z')
    expect(secondsFrom(nextRise('venus', from, boston), '1988-03-20T12:25:26Z')).toBeLessThan(2)
    expect(secondsFrom(nextSet('venus', from, boston), '1988-03-20T02:54:40Z')).toBeLessThan(2)
  })

  it('25.b: the Sun on 13 October 1992, seen from where it stands overhead so that parallax is nil', () => {
    const at = terrestrial('1992-10-13T00:00:00Z', 59.184)
    const sun = bodyLook('sun', at, { latitudeDeg: -7.79, longitudeDeg: 177, heightM: 0 })
    expect(Math.abs(sun.raDeg / 15 - (13 + 13 / 60 + 30.749 / 3600)) * 3600).toBeLessThan(0.1)
    expect(Math.abs(sun.decDeg + (7 + 47 / 60 + 1.74 / 3600)) * 3600).toBeLessThan(1)
  })

  it('41.a: the phase of Venus on 20 December 1992', () => {
    const at = terrestrial('1992-12-20T00:00:00Z', 59.184)
    const venus = bodyLook('venus', at, { latitudeDeg: 0, longitudeDeg: 0, heightM: 0 })
    expect(venus.litFraction).toBeCloseTo(0.647, 2)
    expect(venus.phaseAngleDeg).toBeCloseTo(72.96, 2)
    expect(venus.distanceAu).toBeCloseTo(0.910947, 3)
  })

  it('43.a: the face of Jupiter on 16 December 1992', () => {
    const face = jupiterFace(DECEMBER_1992)
    expect(face.tiltEarthDeg).toBeCloseTo(-2.48, 2)
    expect(face.tiltSunDeg).toBeCloseTo(-2.2, 2)
    expect(Math.abs(face.meridianIDeg - 268.06)).toBeLessThan(0.02)
    expect(Math.abs(face.meridianIIDeg - 72.74)).toBeLessThan(0.02)
    expect(face.positionAngleDeg).toBeCloseTo(24.8, 1)
  })

  // The book's unit, Jupiter's radius of Lieske's theory, is 0.13 % smaller than the IAU's, and 1" is 0.057 radii here.
  it.each([
    ['Io', -3.4503, 0.2137],
    ['Europa', 7.4418, 0.2752],
    ['Ganymede', 1.201, 0.59],
    ['Callisto', 7.072, 1.029],
  ] as const)('44.b: %s beside Jupiter on 16 December 1992, to 0.2"', (name, xRadii, yRadii) => {
    const moon = jupiterMoons(DECEMBER_1992).find((candidate) => candidate.name === name)
    expect(Math.abs((moon?.xRadii ?? Number.NaN) - xRadii)).toBeLessThan(0.011)
    expect(Math.abs((moon?.yRadii ?? Number.NaN) - yRadii)).toBeLessThan(0.011)
  })

  it('45.a: the ring of Saturn on 16 December 1992, north face seen and so positive', () => {
    const ring = saturnRing(DECEMBER_1992)
    expect(Math.abs(ring.tiltEarthDeg - 16.442)).toBeLessThan(0.01)
    expect(Math.abs(ring.tiltSunDeg - 14.679)).toBeLessThan(0.01)
    expect(Math.abs(ring.positionAngleDeg - 6.741)).toBeLessThan(0.05)
    expect(ring.majorArcsec).toBeCloseTo(35.87, 2)
    expect(Math.abs(ring.minorArcsec - 10.15)).toBeLessThan(0.01)
  })

  it('48.a: the phase of the Moon on 12 April 1992', () => {
    const face = moonFace(APRIL_1992)
    expect(Math.abs(face.litFraction - 0.6786)).toBeLessThan(0.0005)
    expect(Math.abs(face.phaseAngleDeg - 69.0756)).toBeLessThan(0.02)
    expect(Math.abs(face.brightLimbAngleDeg - 285.0)).toBeLessThan(0.1)
  })

  it('53.a: libration, axis and colongitude of the Moon on 12 April 1992', () => {
    const face = moonFace(APRIL_1992)
    expect(face.librationLongitudeDeg).toBeCloseTo(-1.23, 2)
    expect(face.librationLatitudeDeg).toBeCloseTo(4.2, 2)
    expect(Math.abs(face.axisAngleDeg - 15.08)).toBeLessThan(0.02)
    expect(Math.abs(face.colongitudeDeg - 22.1)).toBeLessThan(0.02)
    expect(Math.abs(face.sunLatitudeDeg - 1.46)).toBeLessThan(0.02)
  })

  it('53.b and c: the Sun over Copernicus that day, and its rise there half a day before', () => {
    expect(Math.abs(sunAltitudeAtFeature(moonFace(APRIL_1992), -20, 9.7) - 2.318)).toBeLessThan(0.02)
    const rises = new Date(Date.parse('1992-04-11T00:00:00Z') + 0.8069 * 86_400_000 - 58_184)
    expect(Math.abs(sunAltitudeAtFeature(moonFace(rises), -20, 9.7))).toBeLessThan(0.02)
  })
})
