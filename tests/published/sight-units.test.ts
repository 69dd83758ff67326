import { describe, expect, it } from 'vitest'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { cdFromMag, cdFromNanolambert, magFromCd } from '../../server/sight/luminance.ts'
import { siteCd, skyMagOfClass } from '../../server/sight/site-light.ts'

/** Nanolamberts of a sky in V magnitudes per square arcsecond (Krisciunas & Schaefer, PASP 103 (1991), 1033, eq. 1). */
const nanolambertFromMag = (magPerArcsec2: number): number => 34.08 * Math.exp(20.7233 - 0.92104 * magPerArcsec2)

describe('units of sky brightness', () => {
  it('turns magnitudes into nanolamberts and candelas alike, within a hundredth', () => {
    expect(Math.abs(nanolambertFromMag(21.587) - 79)).toBeLessThan(0.1) // K&S eq. 1, dark zenith of the paper
    expect(cdFromMag(21.83) / 2e-4).toBeCloseTo(1, 2) // Crumey section 1.3
    for (const mu of [18, 20, 22]) {
      expect(Math.abs(cdFromNanolambert(nanolambertFromMag(mu)) / cdFromMag(mu) - 1)).toBeLessThan(0.01)
      expect(magFromCd(cdFromMag(mu))).toBeCloseTo(mu, 9)
    }
  })

  it('gives Crumey and Garstang the same nanolamberts: 22 is 54.0, 20 is 340.8, 18 is 2150', () => {
    expect(nanolambertFromMag(22)).toBeCloseTo(54.008, 2)
    expect(nanolambertFromMag(20)).toBeCloseTo(340.771, 1)
    expect(nanolambertFromMag(18)).toBeCloseTo(2150.145, 0)
  })

  it('brightens towards the horizon as Schaefer 1989 has it: 0.29 mag at 45 degrees, 0.47 at 60', () => {
    const brighter = (altitudeDeg: number) =>
      2.5 * Math.log10(siteCd(altitudeDeg, 0, DEFAULT_CONDITIONS) / siteCd(90, 0, DEFAULT_CONDITIONS))
    expect(brighter(45)).toBeCloseTo(0.29, 2)
    expect(brighter(30)).toBeCloseTo(0.474, 2)
  })
})

describe('the nine classes of the sky', () => {
  // Bortle, Sky & Telescope 101 (February 2001), 126, with the zenith values of two tables in common use (read on the web).
  const tables = [
    [1, [21.99, 22], [21.7, 22]],
    [2, [21.89, 21.99], [21.5, 21.7]],
    [3, [21.69, 21.89], [21.3, 21.5]],
    [4, [20.49, 21.69], [20.8, 21.3]],
    [5, [19.5, 20.49], [19.1, 20.1]],
    [6, [18.94, 19.5], [18, 19.1]],
    [7, [18.38, 18.94], [18, 19.1]],
    [8, [0, 18.38], [0, 18]],
    [9, [0, 18.38], [0, 18]],
  ] as const

  it.each(tables)('put class %i within what the two tables span together', (skyClass, [a, b], [c, d]) => {
    expect(skyMagOfClass(skyClass)).toBeGreaterThanOrEqual(Math.min(a, c))
    expect(skyMagOfClass(skyClass)).toBeLessThanOrEqual(Math.max(b, d))
  })

  it('grow brighter one by one, and there is no tenth, no half one', () => {
    for (let skyClass = 1; skyClass < 9; skyClass++)
      expect(skyMagOfClass(skyClass + 1)).toBeLessThan(skyMagOfClass(skyClass))
    for (const none of [0, 10, 4.5, -1, Number.NaN]) expect(() => skyMagOfClass(none)).toThrow(RangeError)
  })
})
