import { describe, expect, it } from 'vitest'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { type Limit, limitOf } from '../../server/sight/limit.ts'
import { cdFromMag, magFromCd } from '../../server/sight/luminance.ts'
import { uniformMargin } from '../../server/sight/patch.ts'
import { colourLossMag } from '../../server/sight/star.ts'
import { contrastFloor, fullRange, magFromLux, pointLux, spreadSr } from '../../server/sight/threshold.ts'
import { thresholdContrast } from '../support/threshold-contrast.ts'

// Crumey, MNRAS 442 (2014), 2600 (arXiv 1405.4209), read in public transcriptions that quote the paper by equation.
const starMag = (mu: number, fieldFactor = 1) => magFromLux(fieldFactor * pointLux(cdFromMag(mu)))
const surfaceMag = (mu: number) => mu - 2.5 * Math.log10(contrastFloor(cdFromMag(mu)))
const still = { ...DEFAULT_CONDITIONS, extinctionMag: 0, seeingArcsec: 0.01 }

/** What two bare eyes see under this sky: a telescope of one power as wide as the pupil. */
function bareEye(fieldFactor: number, mu: number): Limit {
  const optics = { apertureMm: 6, focalLengthMm: 100, obstruction: 0, transmission: 1 }
  const view = { powerX: 1, exitPupilMm: 6, trueFieldDeg: 100, optics }
  return limitOf(view, { ...still, noviceFactor: fieldFactor, eyes: 2, pupilMm: 6 })(cdFromMag(mu), 90)
}

/** The star limit of a tube that passes three quarters of the light, field factor 2, pupil 6.5 mm, under this sky. */
function tubeMag(apertureMm: number, powerX: number, mu: number): number {
  const optics = { apertureMm, focalLengthMm: 1000, obstruction: 0, transmission: 1 / 1.33 }
  const view = { powerX, exitPupilMm: apertureMm / powerX, trueFieldDeg: 1, optics }
  return limitOf(view, { ...still, noviceFactor: 2, pupilMm: 6.5 })(cdFromMag(mu), 90).starMag
}

describe('stars without a telescope', () => {
  it.each([20, 20.5, 21, 21.5, 22])('follow the straight line of eq. 54 at %f', (mu) => {
    expect(Math.abs(starMag(mu) - (0.3834 * mu - 1.44))).toBeLessThan(0.015)
  })
  it.each([21, 22, 23, 24, 25])('follow that of eq. 55 to its printed 0.04 at %f', (mu) => {
    expect(Math.abs(starMag(mu) - (0.426 * mu - 2.365))).toBeLessThan(0.04)
  })
  it.each([18, 18.5, 19, 19.5, 20])('follow that of eq. 91 over towns at %f', (mu) => {
    expect(Math.abs(starMag(mu) - (0.27 * mu + 0.8))).toBeLessThan(0.06)
  })

  it('need 1.150e-9 lux on black, a point 1.150e-4 sr and a wide glow a contrast of 0.1286 (eqs. 51 and 71)', () => {
    expect(pointLux(1e-5) / 1.15e-9).toBeCloseTo(1, 3)
    expect(spreadSr(1e-5) / 1.15e-4).toBeCloseTo(1, 3)
    expect(contrastFloor(1e-5)).toBeCloseTo(0.1286, 4)
  })

  it.each([
    [22, 6.26, 5.82],
    [21, 5.87, 5.43],
    [20, 5.51, 5.07],
    [19, 5.21, 4.77],
    [18, 4.98, 4.54],
    [17, 4.86, 4.42],
  ])('lie within 0.03 of the full-range law at %f, for factors 2 and 3 (reckoned from eq. 34)', (mu, two, three) => {
    expect(Math.abs(starMag(mu, 2) - two)).toBeLessThan(0.03)
    expect(Math.abs(starMag(mu, 3) - three)).toBeLessThan(0.03)
  })

  it.each([
    [10, 2.35, 1.6],
    [100, 0.48, -0.27],
    [1000, -1.57, -2.32],
    [5000, -3.1, -3.85],
    [10_000, -3.77, -4.53],
  ])('fade into twilight and day at %d cd/m^2 (reckoned from eq. 34)', (b, one, two) => {
    expect(Math.abs(starMag(magFromCd(b)) - one)).toBeLessThan(0.01)
    expect(Math.abs(starMag(magFromCd(b), 2) - two)).toBeLessThan(0.01)
  })

  it('are harder by 0.27 magnitudes for one more of B - V (eq. 18)', () => {
    expect(colourLossMag(1.5) - colourLossMag(0.5)).toBeCloseTo(0.27, 9)
    expect(colourLossMag(1) - colourLossMag(0)).toBeCloseTo(0.72 - 0.45, 9) // eq. 16 at 0 and 1
  })
})

describe('glows without a telescope', () => {
  it('follow the straight lines of eqs. 57 and 63', () => {
    for (const mu of [19, 20, 21, 22]) expect(Math.abs(surfaceMag(mu) - (0.6864 * mu + 9.9325))).toBeLessThan(0.03)
    expect(Math.abs(surfaceMag(18) - (0.6864 * 18 + 9.9325))).toBeLessThan(0.13) // ours slides to the full-range law
    for (const mu of [21, 21.5, 22]) {
      const { patchArcmin2 } = bareEye(1, mu)
      expect(Math.abs(Math.sqrt(patchArcmin2 / Math.PI) - (5.21 * mu - 76.2))).toBeLessThan(0.1)
    }
  })

  it('M33 is just visible under 21.83 to an eye of factor 1.378: 5.93 within 18.7 arcminutes (section 4)', () => {
    const seen = Math.PI * 18.7 ** 2
    expect(Math.abs(uniformMargin(bareEye(1.378, 21.83), 5.93, seen))).toBeLessThan(0.01)
    expect(5.93 + 2.5 * Math.log10(3600 * seen)).toBeCloseTo(22.43, 1) // its printed mean surface brightness
  })

  it('M31 shows from a sky of 19.2 to an eye of factor 2, as a star of 5.2 would (section 4)', () => {
    expect(Math.abs(starMag(19.2, 2) - 5.2)).toBeLessThan(0.05)
  })

  it('must be 1.25 magnitudes brighter at the size at which size begins to matter (eq. 60)', () => {
    const limit = bareEye(1, 21.83)
    expect(uniformMargin(limit, limit.patchMag, limit.patchArcmin2)).toBeCloseTo(-1.254, 3)
  })

  it.each([
    [0.1, 21.28],
    [1, 22.49],
    [10, 22.98],
    [100, 23.13],
  ])("have the curve of eq. 89 for Herschel's sweeps at %f square arcminutes", (area, mu) => {
    const patchArcmin2 = 0.468 ** (1 / 0.6)
    const patchMag = 23.18 - 2.5 * Math.log10(3600 * patchArcmin2)
    const limit = { ...bareEye(1, 21.83), patchArcmin2, patchMag }
    const magnitude = mu - 2.5 * Math.log10(3600 * area)
    expect(Math.abs(uniformMargin(limit, magnitude, area))).toBeLessThan(0.01)
  })

  it.each([
    [1e-4, [484, 38.5, 5.44, 0.816, 0.157]],
    [1e-3, [118, 9.5, 1.4, 0.238, 0.0604]],
    [1e-2, [21.1, 1.76, 0.281, 0.0588, 0.021]],
    [1, [0.93, 0.0777, 0.0146, 0.00566, 0.00439]],
    [100, [0.249, 0.022, 0.00539, 0.00313, 0.00284]],
  ])('need these contrasts on %f cd/m^2 at 1, 3.6, 10, 30 and 120 minutes across (reckoned from eq. 41)', (b, row) => {
    const asked = [1, 3.6, 10, 30, 120].map((wide) =>
      thresholdContrast(fullRange, b, (Math.PI / 4) * ((wide / 60) * (Math.PI / 180)) ** 2),
    )
    for (const [i, contrast] of asked.entries()) expect(Math.abs(contrast / (row[i] ?? 0) - 1)).toBeLessThan(0.003)
  })
})

describe('stars in a telescope', () => {
  it('gain 5 magnitudes a tenfold power while the exit pupil overfills the eye, then 2.131, then nothing (eqs. 68 to 70)', () => {
    const at = (exitPupilMm: number) => tubeMag(150, 150 / exitPupilMm, 20)
    const slope = (wide: number, narrow: number) => (at(narrow) - at(wide)) / Math.log10(wide / narrow)
    expect(slope(10, 8)).toBeCloseTo(5, 6)
    expect(Math.abs(slope(3, 1.5) - 2.131)).toBeLessThan(0.02)
    const last = 6.5 * Math.sqrt((1e-5 * 1.33) / cdFromMag(20)) // eq. 70
    expect(at(0.5 * last)).toBe(at(0.99 * last))
    expect(at(1.1 * last)).toBeLessThan(at(last))
  })

  it("stop gaining at 1.0 mm in Bowen's 6-inch (section 3.3)", () => {
    expect(5.2 * Math.sqrt(1e-5 / 2.7e-4)).toBeCloseTo(1, 2) // p 5.2 mm, B/Ft 2.70e-4
  })

  it.each([
    [100, 50, 22],
    [150, 100, 21.5],
    [200, 60, 23],
  ])('follow the straight line of eq. 69 in %i mm at %i times under %f', (apertureMm, powerX, mu) => {
    const exitPupilMm = apertureMm / powerX
    const gathered = 5 * Math.log10(apertureMm / Math.max(exitPupilMm, 6.5))
    const darkened = -2.131 * Math.log10(Math.min(exitPupilMm, 6.5) / 6.5)
    const line = 0.426 * mu - 2.365 + gathered + darkened - 1.435 * Math.log10(1.33) - 2.5 * Math.log10(2 * Math.SQRT2)
    expect(Math.abs(tubeMag(apertureMm, powerX, mu) - line)).toBeLessThan(0.04)
  })

  it.each([
    [60, 20, [9.45, 9.8, 10.18, 10.6, 11.03]],
    [60, 50, [10.18, 10.59, 11.02, 11.47, 11.75]],
    [100, 50, [10.86, 11.24, 11.65, 12.08, 12.53]],
    [100, 100, [11.45, 11.87, 12.31, 12.76, 12.86]],
    [150, 100, [11.98, 12.38, 12.8, 13.24, 13.7]],
    [200, 100, [12.37, 12.75, 13.16, 13.59, 14.04]],
    [250, 125, [12.85, 13.23, 13.64, 14.07, 14.52]],
  ])('reach in %i mm at %i times under 17.5 to 21.5 what eq. 68 gives by hand', (apertureMm, powerX, row) => {
    for (const [i, mag] of row.entries())
      expect(Math.abs(tubeMag(apertureMm, powerX, 17.5 + i) - mag)).toBeLessThan(0.015)
  })
})
