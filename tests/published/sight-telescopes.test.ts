import { describe, expect, it } from 'vitest'
import { chanceAt } from '../../server/sight/chance.ts'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { comfortableArcsec, lordArcsec, splittingPower } from '../../server/sight/double.ts'
import { limitOf } from '../../server/sight/limit.ts'
import { lookOf } from '../../server/sight/look.ts'
import { cdFromMag } from '../../server/sight/luminance.ts'
import { transmittance, viewThrough } from '../../server/sight/optics.ts'
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

  it('loses a ninth of the light to an obstruction of a third', () => {
    expect(transmittance({ ...tube(200, 1200), obstruction: 0.33, transmission: 1 })).toBeCloseTo(0.891, 3) // Crumey section 3.2
  })

  it("spreads colours and blurs detail as Filippenko's table has it at 30 degrees", () => {
    expect(detailArcsec(1e9, 0, 30)).toBeCloseTo(0.71, 2) // PASP 94 (1982), 715: 500 to 600 nm, sea level
    expect(detailArcsec(1e9, 0, 20)).toBeCloseTo(1.1, 1)
    expect(detailArcsec(138, 0, 90)).toBeCloseTo(1, 6) // Rayleigh, 1.22 x 550 nm
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

// Total V and isophotal sizes of RC3 (de Vaucouleurs et al. 1991), from memory; field factor 2, no extinction, 50 times, 19.5 mag.
describe('the order in which faint things drop out of a town sky', () => {
  const things: Record<string, Subject> = {
    M57: { kind: 'planetary', magnitude: 8.8, majorArcmin: 1.4, minorArcmin: 1 },
    M27: { kind: 'planetary', magnitude: 7.4, majorArcmin: 8, minorArcmin: 5.7 },
    M31: { kind: 'galaxy', magnitude: 3.44, majorArcmin: 178, minorArcmin: 63 },
    M82: { kind: 'galaxy', magnitude: 8.4, majorArcmin: 11.2, minorArcmin: 4.3 },
    M81: { kind: 'galaxy', magnitude: 6.94, majorArcmin: 26.9, minorArcmin: 14.1 },
    M51: { kind: 'galaxy', magnitude: 8.4, majorArcmin: 11.2, minorArcmin: 6.9 },
    M33: { kind: 'galaxy', magnitude: 5.72, majorArcmin: 70.8, minorArcmin: 41.7 },
    M101: { kind: 'galaxy', magnitude: 7.86, majorArcmin: 28.8, minorArcmin: 26.9 },
  }
  const night = { ...DEFAULT_CONDITIONS, extinctionMag: 0, noviceFactor: 2, pupilMm: 6.5 }
  const margin = (name: string, apertureMm: number) => {
    const seen = view(apertureMm, 50, 3)
    const subject = things[name]
    if (subject === undefined) throw new Error(name)
    return lookOf(subject, seen)(limitOf(seen, night)(cdFromMag(19.5), 90)).lightMag
  }

  it.each([100, 200])('holds in %i mm: M57, M27, M31, then M82 and M81 together, M51, M33, M101 last', (aperture) => {
    const order = ['M57', 'M27', 'M31', 'M82', 'M51', 'M33', 'M101'].map((name) => margin(name, aperture))
    expect(order).toEqual(order.toSorted((a, b) => b - a))
    expect(Math.abs(margin('M82', aperture) - margin('M81', aperture))).toBeLessThan(0.2)
    expect(margin('M81', aperture)).toBeGreaterThan(margin('M51', aperture))
  })

  it('leaves M51 and M101 to few newcomers in 100 mm', () => {
    const novice = 2.5 * Math.log10(2)
    expect(chanceAt(margin('M51', 100) - novice)).toBeLessThan(0.25)
    expect(chanceAt(margin('M101', 100) - novice)).toBeLessThan(0.05)
    expect(chanceAt(margin('M57', 100) - novice)).toBeGreaterThan(0.9)
  })
})
