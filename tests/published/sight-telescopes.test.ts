import { describe, expect, it } from 'vitest'
import { chanceAt } from '../../server/sight/chance.ts'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { comfortableArcsec, lordArcsec, splittingPower } from '../../server/sight/double.ts'
import { airAt, limitOf } from '../../server/sight/limit.ts'
import { lookOf } from '../../server/sight/look.ts'
import { cdFromMag } from '../../server/sight/luminance.ts'
import { transmittance, viewThrough, withFactor } from '../../server/sight/optics.ts'
import { uniformMargin } from '../../server/sight/patch.ts'
import { detailArcsec } from '../../server/sight/planet.ts'
import type { Subject } from '../../server/sight/subject.ts'

const tube = (apertureMm: number, focalLengthMm: number) => ({
  apertureMm,
  focalLengthMm,
  obstruction: 0,
  transmission: 1 / 1.33,
})
const view = (apertureMm: number, powerX: number, trueFieldDeg: number) => ({
  powerX,
  exitPupilMm: apertureMm / powerX,
  trueFieldDeg,
  optics: tube(apertureMm, 1000),
})

// Definitions of geometrical optics.
describe('telescope arithmetic', () => {
  it('has 48 times and 4.17 mm for 200/1200 with 25 mm', () => {
    const seen = viewThrough(tube(200, 1200), { focalLengthMm: 25, apparentFieldDeg: 50, fieldStopMm: null })
    expect(seen.powerX).toBe(48)
    expect(seen.exitPupilMm).toBeCloseTo(4.17, 2)
    expect(seen.trueFieldDeg).toBeCloseTo(62.5 / 60, 6)
  })

  it('takes the field stop where it is known: 27 mm at 1200 mm shows 1.2891 degrees', () => {
    const seen = viewThrough(tube(200, 1200), { focalLengthMm: 25, apparentFieldDeg: 50, fieldStopMm: 27 })
    expect(seen.trueFieldDeg).toBeCloseTo(1.2891, 4)
  })

  it.each([
    [102, 660, 25.38, 4.02],
    [150, 750, 28.85, 5.2],
    [250, 1250, 48.08, 5.2],
    [72, 432, 16.62, 4.33],
    [130, 650, 25, 5.2],
  ])('has the power and exit pupil of a 26 mm eyepiece in the %i mm of %i mm', (aperture, focal, power, pupil) => {
    const seen = viewThrough(tube(aperture, focal), { focalLengthMm: 26, apparentFieldDeg: 60, fieldStopMm: null })
    expect(seen.powerX).toBeCloseTo(power, 2)
    expect(seen.exitPupilMm).toBeCloseTo(pupil, 2)
  })

  it('doubles the power and halves the field behind a Barlow of two, and the other way round behind a reducer', () => {
    const ocular = { focalLengthMm: 25, apparentFieldDeg: 50, fieldStopMm: 27 }
    const bare = viewThrough(tube(200, 1200), ocular)
    const doubled = viewThrough(tube(200, 1200), withFactor(ocular, 2))
    expect(doubled.powerX).toBe(96)
    expect(doubled.exitPupilMm).toBeCloseTo(bare.exitPupilMm / 2, 9)
    expect(doubled.trueFieldDeg).toBeCloseTo(bare.trueFieldDeg / 2, 3)
    const reduced = viewThrough(tube(200, 1200), withFactor({ ...ocular, fieldStopMm: null }, 0.5))
    expect([reduced.powerX, reduced.trueFieldDeg]).toEqual([24, 50 / 24])
  })

  it('loses a ninth of the light to an obstruction of a third', () => {
    expect(transmittance({ ...tube(200, 1200), obstruction: 0.33, transmission: 1 })).toBeCloseTo(0.891, 3) // Crumey section 3.2
  })

  it("spreads colours and blurs detail as Filippenko's table has it at 30 degrees", () => {
    expect(detailArcsec(1e9, 0, 30)).toBeCloseTo(0.71, 2) // PASP 94 (1982), 715: 500 to 600 nm, sea level
    expect(detailArcsec(1e9, 0, 20)).toBeCloseTo(1.1, 1)
    expect(detailArcsec(138, 0, 90)).toBeCloseTo(1, 6) // Rayleigh, 1.22 x 550 nm
  })
})

describe('steadiness of air and limits of power', () => {
  it.each([
    [10, 2.86],
    [15, 2.25],
    [20, 1.9],
    [30, 1.52],
    [40, 1.3],
    [50, 1.17],
  ])('blurs a star %i degrees high %f times as much as overhead', (altitudeDeg, times) => {
    // Airmass to the power 0.6: Fried, J. Opt. Soc. Am. 56 (1966), 1372; factors reckoned
    const width = (altitude: number) => airAt(altitude, DEFAULT_CONDITIONS).blurArcsec
    expect(Math.abs(width(altitudeDeg) / width(90) / times - 1)).toBeLessThan(0.02)
  })

  it('spreads colours in the ratio of the published plot: 2.0 at 30 degrees, 1.0 at 50, 0.4 at 70', () => {
    // Filippenko, PASP 94 (1982), 715, 400 to 700 nm at 2000 m; ours is the eye's narrower band at sea level
    const spread = (altitudeDeg: number) => (detailArcsec(1e9, 0, altitudeDeg) / detailArcsec(1e9, 0, 30)) * 2
    expect(Math.abs(spread(50) - 1)).toBeLessThan(0.06)
    expect(Math.abs(spread(70) - 0.4)).toBeLessThan(0.06)
  })

  it("lets a star fade from the same power on as Schaefer's law: 200 mm, images of 2 arcseconds, best near 250 times", () => {
    // PASP 102 (1990), 212, by a transcription of his listing: 13.95 at 61, 14.59 at 173, 14.66 at 250, 14.44 at 500, 14.15 at 1000
    const night = { ...DEFAULT_CONDITIONS, noviceFactor: 2, extinctionMag: 0.2, seeingArcsec: 2, pupilMm: 6.46 }
    const at = (powerX: number) => limitOf(view(200, powerX, 0.2), night)(cdFromMag(21), 90).starMag
    expect(at(61)).toBeLessThan(at(120))
    expect(at(120)).toBeLessThan(at(173))
    for (const powerX of [250, 350, 500]) expect(at(2 * powerX)).toBeLessThan(at(powerX))
    expect(Math.abs(at(250) - at(500) - (14.66 - 14.44))).toBeLessThan(0.2)
    expect(Math.abs(at(500) - at(1000) - (14.44 - 14.15))).toBeLessThan(0.2)
    // With a factor of 2 his observers see 0.3 to 0.7 magnitudes more than ours
    for (const [powerX, his] of [[61, 13.95], [120, 14.42], [250, 14.66]] as const) // biome-ignore format: a table
      expect(Math.abs(his - at(powerX) - 0.6)).toBeLessThan(0.3)
  })
})

describe('double stars', () => {
  // Lord 1994, nomogram for unequal binaries: formula from a transcription, figures reckoned from it
  it.each([
    [0.1, 1.43],
    [1, 1.75],
    [2, 2.21],
    [4, 3.5],
  ])('have the limit of 100 mm without obstruction in good seeing for a difference of %f', (difference, arcsec) => {
    expect(Math.abs(lordArcsec(100, difference, 10) - arcsec)).toBeLessThan(0.01)
  })

  it.each([
    [1, 1.04],
    [2, 1.58],
    [4, 3.65],
  ])('have the limit of an obstructed 200 mm in middling seeing for a difference of %f', (difference, arcsec) => {
    expect(Math.abs(lordArcsec(200, difference, 5.5) - arcsec)).toBeLessThan(0.02)
  })

  it.each([
    [60, 2.307],
    [80, 1.73],
    [100, 1.384],
    [127, 1.09],
    [150, 0.923],
    [200, 0.692],
    [250, 0.554],
  ])("rest on Rayleigh's limit in %i mm (1.22 x 550 nm over the aperture)", (apertureMm, arcsec) => {
    expect(lordArcsec(apertureMm, 0.1, 10) / 1.033 / arcsec).toBeCloseTo(1, 2)
  })

  it('need 7 times for Albireo, 17 for Mizar, 44 for Castor', () => {
    const pair = (separationArcsec: number) =>
      splittingPower({ kind: 'double', magnitudes: [2, 3], separationArcsec, hasColourContrast: false })
    expect(pair(34.3)).toBeCloseTo(7, 0) // 240" of apparent separation: from memory
    expect(pair(14.4)).toBeCloseTo(17, 0)
    expect(pair(5.4)).toBeCloseTo(44, 0)
  })

  it('are comfortable for a newcomer at twice the limit of an observer or more', () => {
    const pair = { kind: 'double', magnitudes: [3, 3], separationArcsec: 2, hasColourContrast: false } as const
    expect(comfortableArcsec(pair, view(100, 100, 0.5), 0.1)).toBeCloseTo(2 * lordArcsec(100, 0, 11), 6)
    expect(comfortableArcsec(pair, view(100, 100, 0.5), 10)).toBe(8)
  })
})

// Sky 19.3 at the target, 60 degrees high, k 0.25, pupil 6.5 mm, loss 1.33, newcomer 4: reckoned by hand from Crumey's eqs. 53, 60 to 68.
describe('worked from sky to chance', () => {
  const night = { ...DEFAULT_CONDITIONS, extinctionMag: 0.25, pupilMm: 6.5 }
  const limit = (apertureMm: number, powerX: number) => limitOf(view(apertureMm, powerX, 1), night)(cdFromMag(19.3), 60)

  it('shows M57 in 150 mm at 100 times to nineteen of twenty', () => {
    const ring: Subject = { kind: 'planetary', magnitude: 8.8, majorArcmin: 1.4, minorArcmin: 1 }
    const { lightMag } = lookOf(ring, view(150, 100, 1))(limit(150, 100))
    expect(Math.abs(lightMag - 1.24)).toBeLessThan(0.005)
    expect(chanceAt(lightMag)).toBeCloseTo(0.956, 3)
  })

  it('shows a star of 11.0 in the same view to four of five', () => {
    const star: Subject = { kind: 'star', magnitude: 11, bv: null, isRed: false }
    const { lightMag } = lookOf(star, view(150, 100, 1))(limit(150, 100))
    expect(Math.abs(lightMag - 0.674)).toBeLessThan(0.002)
    expect(chanceAt(lightMag)).toBeCloseTo(0.823, 3)
  })

  it('shows the half-light area of M13 in 150 mm at 60 times to everybody, and its best area no worse', () => {
    expect(Math.abs(uniformMargin(limit(150, 60), 6.553, 8.97) - 1.988)).toBeLessThan(0.002)
    const whole: Subject = { kind: 'globular', magnitude: 5.8, halfLightArcmin: 1.69 }
    const { lightMag } = lookOf(whole, view(150, 60, 1))(limit(150, 60))
    expect(lightMag).toBeGreaterThan(1.98)
    expect(lightMag).toBeLessThan(2.5)
  })
})
