import { describe, expect, it } from 'vitest'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { cdFromMag, cdFromNanolambert, magFromCd } from '../../server/sight/luminance.ts'
import {
  moonlightCd,
  moonlightNanolambert,
  moonMagnitude,
  scatteringAirmass,
  scatteringFunction,
} from '../../server/sight/moonlight.ts'
import { skyBrightness } from '../../server/sight/sky-brightness.ts'
import { patatZenithMag, schaeferTwilight, zenithTwilightCd } from '../../server/sight/twilight.ts'

// Krisciunas & Schaefer, PASP 103 (1991), 1033, equations and table by public transcriptions.
describe('moonlight in the sky', () => {
  it.each([
    [5, 7216],
    [30, 1160],
    [60, 530],
    [90, 437],
    [120, 818],
  ])(
    'has the printed nanolamberts of table 2, phase angle 30, %i degrees from the Moon',
    (separationDeg, nanolambert) => {
      // Moon at zenith distance 60, k 0.172, target on the great circle through Moon and zenith
      const altitudeDeg = 90 - Math.abs(60 - separationDeg)
      const moon = { altitudeDeg: 30, phaseAngleDeg: 30, separationDeg }
      expect(Math.abs(moonlightNanolambert(moon, altitudeDeg, 0.172) - nanolambert)).toBeLessThan(0.5)
    },
  )

  // The other cells of that table, reckoned from eqs. 15 to 20, which give the printed row to its last digit.
  it.each([
    [0, [14846, 5792, 2387, 1090, 899, 1683]],
    [60, [3364, 1313, 541, 247, 204, 381]],
    [90, [1351, 527, 217, 99, 82, 153]],
    [120, [391, 152, 63, 29, 24, 44]],
  ])(
    'has the nanolamberts of its equations at phase angle %i, 5 to 120 degrees from the Moon',
    (phaseAngleDeg, row) => {
      for (const [i, separationDeg] of [5, 10, 30, 60, 90, 120].entries()) {
        const altitudeDeg = 90 - Math.abs(60 - separationDeg)
        const reckoned = moonlightNanolambert({ altitudeDeg: 30, phaseAngleDeg, separationDeg }, altitudeDeg, 0.172)
        expect(Math.abs(reckoned - (row[i] ?? 0))).toBeLessThan(0.55)
      }
    },
  )

  it('is turned by the air as eqs. 17 to 19 have it, ten to the 5.36 outside the bracket', () => {
    expect(scatteringFunction(90) / 250_775).toBeCloseTo(1, 4) // 242,832 by molecules and 7,943 by haze
    expect(scatteringFunction(30) / 665_840).toBeCloseTo(1, 4) // 414,650 and 251,190
  })

  it('has the value 19.855 of the specsim documentation', () => {
    // Z 20, Moon at Z 70, 50 apart, phase 0.25 (phase angle 45), k 0.15
    const moon = { altitudeDeg: 20, phaseAngleDeg: 45, separationDeg: 50 }
    const nanolambert = moonlightNanolambert(moon, 70, 0.15)
    expect(Math.abs((20.7233 - Math.log(nanolambert / 34.08)) / 0.92104 - 19.855)).toBeLessThan(0.001)
    expect(Math.abs(magFromCd(cdFromNanolambert(nanolambert)) - 19.855)).toBeLessThan(0.01)
  })

  it('follows the phase law of eq. 9 and the airmass of eq. 3', () => {
    expect(moonMagnitude(0)).toBe(-12.73)
    expect(moonMagnitude(90)).toBeCloseTo(-12.73 + 2.34 + 0.262, 2)
    expect(scatteringAirmass(0)).toBeCloseTo(5, 6)
    expect(scatteringAirmass(90)).toBe(1)
  })

  it('is a third brighter at the very full Moon, as the text says', () => {
    const at = (phaseAngleDeg: number) => {
      const moon = { altitudeDeg: 45, phaseAngleDeg, distanceKm: 384_400, separationDeg: 60 }
      return moonlightCd(moon, 45, 0.25) / cdFromNanolambert(moonlightNanolambert(moon, 45, 0.25))
    }
    expect(at(0)).toBeCloseTo(1.35, 6)
    expect(at(7)).toBeCloseTo(1, 6)
  })

  it('adds a quarter of a magnitude to a town and nearly a whole one to the country at the half Moon', () => {
    // Moon and target 45 degrees high, 60 apart, k 0.25: reckoned from the paper with the zenith gradient below
    const added = (zenithMag: number) => {
      const moon = { altitudeDeg: 45, phaseAngleDeg: 90, distanceKm: 384_400, separationDeg: 60 }
      const place = { altitudeDeg: 45, azimuthDeg: 0, sunAltitudeDeg: -40, sunSeparationDeg: 120, moon }
      const sky = skyBrightness(place, { ...DEFAULT_CONDITIONS, zenithMag, extinctionMag: 0.25 })
      return 2.5 * Math.log10(sky.totalCd / sky.siteCd)
    }
    expect(Math.abs(added(19.5) - 0.25)).toBeLessThan(0.02)
    expect(Math.abs(added(21.3) - 0.93)).toBeLessThan(0.02)
  })
})

describe('twilight', () => {
  it('has the fitted zenith of Patat, Ugolnikov & Postylyakov 2006, table 1, V', () => {
    expect(patatZenithMag(5)).toBeCloseTo(11.84, 3) // Sun at zenith distance 95
    expect(patatZenithMag(10)).toBeCloseTo(18.005, 3)
    expect(patatZenithMag(15)).toBeCloseTo(21.32, 3)
  })

  it.each([
    [5, 43],
    [3, 35],
    [0, 15],
    [-3, 2],
    [-6, 0.06],
    [-9, 0.0015],
    [-12, 0.00012],
  ])(
    'is within a factor 2 of the Maryland zenith of Koomen et al. 1952 with the Sun at %f degrees',
    (sun, candlesFt2) => {
      const ratio = zenithTwilightCd(sun) / (candlesFt2 * 10.7639)
      expect(ratio).toBeGreaterThan(0.5)
      expect(ratio).toBeLessThan(2)
    },
  )

  it('ends in a night as dark as both places had it, with the Sun at -15', () => {
    const maryland = 0.00004 * 10.7639 // Koomen et al., the night sky in it
    const ratio = (zenithTwilightCd(-15) + cdFromMag(21.61)) / maryland
    expect(ratio).toBeGreaterThan(0.5)
    expect(ratio).toBeLessThan(2)
  })

  it.each([
    [0, 8],
    [-3, 1],
    [-6, 0.022],
    [-9, 0.00075],
    [-12, 0.000076],
  ])('is up to 2.2 times that of their mountain, 2800 m up, with the Sun at %f degrees', (sun, candlesFt2) => {
    const ratio = zenithTwilightCd(sun) / (candlesFt2 * 10.7639) // Sacramento Peak, table II
    expect(ratio).toBeGreaterThan(1)
    expect(ratio).toBeLessThan(2.2)
  })

  it('falls by their 1.25 magnitudes a degree from -3 to -11, by 1.14 past the fit, and is over at -16', () => {
    const magAt = (sun: number) => magFromCd(zenithTwilightCd(sun))
    expect(Math.abs((magAt(-11) - magAt(-3)) / 8 - 1.25)).toBeLessThan(0.05) // Koomen et al.: ten times in 2 degrees
    expect(Math.abs(magAt(-14) - magAt(-13) - 1.14)).toBeLessThan(0.02) // Patat et al. 2006, table 1, V: 1.14 +- 0.02
    const added = 2.5 * Math.log10(1 + zenithTwilightCd(-16) / cdFromMag(21.61))
    expect(added).toBeLessThan(0.1) // Patat et al.: night is reached with the Sun at zenith distance 105 to 106
  })

  it.each([
    [6, 13.301],
    [8, 15.881],
    [9, 17.0],
    [12, 19.673],
  ])('has the fit of Patat et al. %f degrees down (reckoned from their table 1)', (depressionDeg, mag) => {
    expect(Math.abs(patatZenithMag(depressionDeg) - mag)).toBeLessThan(0.001)
  })

  it('lies with the Sun at -6 between the measured and the reckoned zeniths of four sources, 13.05 to 14.14', () => {
    const mag = magFromCd(zenithTwilightCd(-6))
    expect(mag).toBeGreaterThan(13.05) // Koomen et al., Maryland; Patat 13.30, Schaefer 13.33
    expect(mag).toBeLessThan(14.14) // Koomen et al., Sacramento Peak
  })

  it.each([
    [-3, 10.29],
    [-6, 13.33],
    [-9, 16.36],
    [-12, 19.39],
    [-15, 22.42],
  ])("has the zenith of Schaefer's law with the Sun at %f, k 0.25 (reckoned from p. 129)", (sun, mag) => {
    // 1 nL is 1.02e-15 of his unit there and 1.11e-15 in his listing of 1998; only ratios are used of it
    const cd = cdFromNanolambert(schaeferTwilight(sun, 90, 90 - sun, 0.25) / 1.02e-15)
    expect(Math.abs(magFromCd(cd) - mag)).toBeLessThan(0.01)
  })

  it("has the shape of Schaefer's law: a magnitude a degree, brighter on the Sun's side", () => {
    const perDegree = schaeferTwilight(-6, 90, 96, 0.25) / schaeferTwilight(-7, 90, 96, 0.25)
    expect(perDegree).toBeCloseTo(10 ** 0.4, 6) // Archaeoastronomy XV (2000), p. 129
    expect(schaeferTwilight(-6, 30, 40, 0.25) / schaeferTwilight(-6, 30, 120, 0.25)).toBeCloseTo(3, 6)
  })
})
