import { describe, expect, it } from 'vitest'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { limitOf } from '../../server/sight/limit.ts'
import { cdFromMag } from '../../server/sight/luminance.ts'
import { contrastFloor, fullRange, magFromLux, pointLux, scotopic, spreadSr } from '../../server/sight/threshold.ts'
import { thresholdContrast } from '../support/threshold-contrast.ts'

// Crumey, MNRAS 442 (2014), 2600 (arXiv 1405.4209), read in public transcriptions that quote the paper by equation and table.
const SKY_CD = 2e-4 // his mu = 21.83
const SKY_MAG = 21.83
const pointMag = (b: number, fieldFactor: number) => magFromLux(fieldFactor * pointLux(b))
const surfaceMag = (b: number, mu: number, fieldFactor: number) => mu - 2.5 * Math.log10(fieldFactor * contrastFloor(b))
const arcmin = (areaSr: number) => Math.sqrt(areaSr / Math.PI) * (180 / Math.PI) * 60
const discSr = (diameterArcmin: number) => (Math.PI / 4) * ((diameterArcmin / 60) * (Math.PI / 180)) ** 2

describe('the laboratory threshold', () => {
  it('gives the printed naked-eye limits under a dark sky', () => {
    expect(pointMag(SKY_CD, 1)).toBeCloseTo(6.93, 2) // section 3.1
    expect(pointMag(SKY_CD, 2)).toBeCloseTo(6.18, 2)
  })

  it('gives the printed limit by the full-range law too', () => {
    const point = (fieldFactor: number) => magFromLux(fieldFactor * SKY_CD * fullRange.spread(SKY_CD))
    expect(Math.abs(point(1) - 6.93)).toBeLessThan(0.015) // eq. 34; the two laws differ by 0.009
    expect(Math.abs(point(2) - 6.18)).toBeLessThan(0.015)
  })

  it.each([
    [22.0, 0.0, 18.06],
    [21.75, 0.1, 17.98],
    [21.5, 0.2, 17.9],
    [21.25, 0.3, 17.82],
    [21.0, 0.4, 17.74],
    [20.75, 0.49, 17.66],
    [20.5, 0.59, 17.58],
    [20.25, 0.68, 17.49],
    [20.0, 0.77, 17.4],
    [19.75, 0.85, 17.32],
    [19.5, 0.93, 17.22],
    [19.25, 1.01, 17.13],
  ])('agrees with table 1 at %f mag per square arcsecond', (mu, penalty, supplement) => {
    const b = cdFromMag(mu)
    // The paper rests on scotopic eqs. 32 and 56; from 1e-3 cd/m^2 (20.1) on ours slides to the full-range law.
    const point = magFromLux(b * scotopic.spread(b))
    expect(Math.abs(pointMag(cdFromMag(22), 1) - point - penalty)).toBeLessThan(0.01)
    expect(Math.abs(mu - 2.5 * Math.log10(scotopic.floor(b)) - point - supplement)).toBeLessThan(0.01)
  })

  it('sees a boundless glow of 24.94 and a Ricco radius of 37.6 arcminutes under a dark sky', () => {
    expect(Math.abs(surfaceMag(SKY_CD, SKY_MAG, 1) - 24.94)).toBeLessThan(0.005) // eq. 56
    expect(arcmin(spreadSr(SKY_CD) / contrastFloor(SKY_CD))).toBeCloseTo(37.6, 1) // eq. 63
  })

  it('has the asymptotes of M33 just visible to the bare eye', () => {
    expect(Math.abs(pointMag(SKY_CD, 1.378) - 6.59)).toBeLessThan(0.01)
    expect(Math.abs(surfaceMag(SKY_CD, SKY_MAG, 1.378) - 24.59)).toBeLessThan(0.01)
  })

  it.each([
    [2.2e-4, 0.07, 0.0681],
    [3.5e-4, 0.0603, 0.0581],
    [1e-3, 0.0426, 0.04],
  ])(
    'asks the contrast that others reckoned from his equations for a 6-degree disc at %f cd/m^2',
    (b, night, whole) => {
      expect(Math.abs(thresholdContrast(scotopic, b, discSr(360)) - night)).toBeLessThan(0.0005)
      expect(Math.abs(thresholdContrast(fullRange, b, discSr(360)) - whole)).toBeLessThan(0.0005)
    },
  )

  it('reaches the printed cut-off magnitudes once more power gains nothing', () => {
    const cut = (apertureMm: number, product: number) =>
      telescopeLimit(apertureMm, 0.2, { b: 1e-4, pupilMm: 7, product })
    // eq. 73: 5 log D(cm) + 8.45 for Ft 1.33, F_T sqrt 2, F 1
    expect(Math.abs(cut(100, 1.33 * Math.SQRT2) - 5 - 8.45)).toBeLessThan(0.005)
    expect(Math.abs(cut(100, 3.77) - 12.7)).toBeLessThan(0.05) // Fig. 13
  })

  it.each([
    [8, 11.505],
    [2.5, 13.115],
    [0.5, 13.96],
  ])("meets Bowen's 6-inch at an exit pupil of %f mm", (exitPupilMm, magnitude) => {
    // Bowen, PASP 59 (1947), 253, by way of Crumey section 3.3: p 5.2 mm, B/Ft 2.70e-4, product of factors 4.78
    const seen = telescopeLimit(152, exitPupilMm, { b: 2.7e-4, pupilMm: 5.2, product: 4.78 })
    expect(Math.abs(seen - magnitude)).toBeLessThan(0.1)
  })
})

/** The star limit of a tube in airless, steady sky; `b` is B/Ft and `product` Ft F_M F_T F. */
function telescopeLimit(apertureMm: number, exitPupilMm: number, eye: { b: number; pupilMm: number; product: number }) {
  const transmission = 0.75
  const noviceFactor = (eye.product * transmission) / Math.SQRT2
  const optics = { apertureMm, focalLengthMm: 1000, obstruction: 0, transmission }
  const view = { powerX: apertureMm / exitPupilMm, exitPupilMm, trueFieldDeg: 1, optics }
  const night = { ...DEFAULT_CONDITIONS, pupilMm: eye.pupilMm, noviceFactor, extinctionMag: 0, seeingArcsec: 0.01 }
  return limitOf(view, night)(eye.b / transmission, 90).starMag
}
