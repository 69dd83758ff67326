import { describe, expect, it } from 'vitest'
import { airmassKastenYoung, airmassPickering } from '../../server/sky/airmass.ts'
import { refractionDeg, refractionFromApparentDeg, trueAltitudeDeg } from '../../server/sky/refraction.ts'

describe('airmass, test values of pvlib-python (tests/test_atmosphere.py, to 0.001)', () => {
  it.each([
    [89.9, 36.467, 37.064],
    [80, 5.586, 5.581],
    [0, 1, 1],
  ])('at zenith distance %d', (zenithDeg, kastenYoung, pickering) => {
    expect(Math.abs(airmassKastenYoung(90 - zenithDeg) - kastenYoung)).toBeLessThan(0.001)
    expect(Math.abs(airmassPickering(90 - zenithDeg) - pickering)).toBeLessThan(0.001)
  })
})

describe('refraction', () => {
  it('Meeus 16.a: the lower limb of the Sun seen at half a degree', () => {
    expect(refractionFromApparentDeg(0.5) * 60).toBeCloseTo(28.754, 3)
    expect(refractionDeg(33.246 / 60) * 60).toBeCloseTo(24.618, 3)
  })

  // Ray traces after Auer & Standish, Astronomical Journal 119 (2000), 2472, dry air, 1010 hPa, 10 C; minutes of arc.
  it.each([
    [0, 33.83, 60],
    [1, 24.04, 60],
    [2, 18.12, 60],
    [3, 14.29, 15],
    [5, 9.81, 15],
    [10, 5.29, 15],
    [20, 2.63, 15],
    [45, 0.965, 15],
  ])('a thing seen at %d degrees is lifted by %d minutes, to %d seconds', (seenDeg, traced, withinArcsec) => {
    const lifted = seenDeg - trueAltitudeDeg(seenDeg)
    expect(Math.abs(lifted * 60 - traced) * 60).toBeLessThan(withinArcsec)
    expect(Math.abs(refractionFromApparentDeg(seenDeg) * 60 - traced) * 60).toBeLessThan(withinArcsec)
  })
})
