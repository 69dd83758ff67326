import { describe, expect, it } from 'vitest'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { cdFromMag, cdFromNanolambert, magFromCd, nanolambertFromMag } from '../../server/sight/luminance.ts'
import { moonlightCd, moonlightNanolambert, moonMagnitude, scatteringAirmass } from '../../server/sight/moonlight.ts'
import { siteCd } from '../../server/sight/site-light.ts'
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

  it("has the shape of Schaefer's law: a magnitude a degree, brighter on the Sun's side", () => {
    const perDegree = schaeferTwilight(-6, 90, 96, 0.25) / schaeferTwilight(-7, 90, 96, 0.25)
    expect(perDegree).toBeCloseTo(10 ** 0.4, 6) // Archaeoastronomy XV (2000), p. 129
    expect(schaeferTwilight(-6, 30, 40, 0.25) / schaeferTwilight(-6, 30, 120, 0.25)).toBeCloseTo(3, 6)
  })
})

describe('units of sky brightness', () => {
  it('turns magnitudes into nanolamberts and candelas alike, within a hundredth', () => {
    expect(Math.abs(nanolambertFromMag(21.587) - 79)).toBeLessThan(0.1) // K&S eq. 1, dark zenith of the paper
    expect(cdFromMag(21.83) / 2e-4).toBeCloseTo(1, 2) // Crumey section 1.3
    for (const mu of [18, 20, 22]) {
      expect(Math.abs(cdFromNanolambert(nanolambertFromMag(mu)) / cdFromMag(mu) - 1)).toBeLessThan(0.01)
      expect(magFromCd(cdFromMag(mu))).toBeCloseTo(mu, 9)
    }
  })

  it('brightens towards the horizon as Schaefer 1989 has it: 0.29 mag at 45 degrees, 0.47 at 60', () => {
    const brighter = (altitudeDeg: number) =>
      2.5 * Math.log10(siteCd(altitudeDeg, 0, DEFAULT_CONDITIONS) / siteCd(90, 0, DEFAULT_CONDITIONS))
    expect(brighter(45)).toBeCloseTo(0.29, 2)
    expect(brighter(30)).toBeCloseTo(0.474, 2)
  })
})
