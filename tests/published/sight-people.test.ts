import { describe, expect, it } from 'vitest'
import { chanceAt } from '../../server/sight/chance.ts'
import { DEFAULT_CONDITIONS, pupilOfAge } from '../../server/sight/conditions.ts'
import { gainMag } from '../../server/sight/limit.ts'
import { dazzleMag } from '../../server/sight/moon.ts'
import { normalShare } from '../../server/sight/normal.ts'

const mag = (factor: number) => 2.5 * Math.log10(factor)

describe('what a newcomer needs', () => {
  it('lies between the two ways of reckoning it, 3.9 and 4.2 times a laboratory threshold', () => {
    const sure = 1.62 * 2.4 // Blackwell 1952 and Blackwell & Blackwell 1971, by way of Crumey section 1.2
    const novice = 2 * 10 ** (0.4 * 0.16 * 5) // Crumey section 3.1; Schaefer 1990: 0.16 mag for each of five steps of practice
    expect(sure).toBeCloseTo(3.9, 1)
    expect(novice).toBeCloseTo(4.2, 1)
    expect(DEFAULT_CONDITIONS.noviceFactor).toBeGreaterThan(sure)
    expect(DEFAULT_CONDITIONS.noviceFactor).toBeLessThan(novice)
  })

  it('is 0.38 magnitudes more with one eye than with two (Lythgoe & Phillips 1938, by way of Crumey section 1.6.4)', () => {
    const optics = { apertureMm: 50, focalLengthMm: 200, obstruction: 0, transmission: 0.9 }
    const view = { powerX: 10, exitPupilMm: 5, trueFieldDeg: 5, optics }
    const gain = (eyes: 1 | 2) => gainMag(view, { ...DEFAULT_CONDITIONS, eyes })
    expect(gain(2) - gain(1)).toBeCloseTo(mag(1.41), 2)
    expect(gain(2) - gain(1)).toBeCloseTo(0.38, 2)
  })
})

describe('the pupil in the dark', () => {
  it.each([
    [20, 6.86, 8.17],
    [40, 6.46, 7.12],
    [60, 5.85, 6.07],
    [80, 5.08, 5.02],
  ])("of age %i follows Schaefer's law, up to 1.3 mm from Watson & Yellott's", (years, schaefer, watsonYellott) => {
    expect(pupilOfAge(years)).toBeCloseTo(schaefer, 2) // reckoned from PASP 102 (1990), 212
    // J. Vision 12(10) (2012), 12: one eye, 1000 square degrees, 1e-4 cd/m^2, reckoned from their equation
    expect(Math.abs(pupilOfAge(years) - watsonYellott)).toBeLessThan(1.35)
  })

  it('of a child is that of the youngest who were measured', () => expect(pupilOfAge(8)).toBe(pupilOfAge(20)))
})

describe('from a margin to a chance', () => {
  it.each([
    [0, 0.5],
    [1, 0.8413447],
    [1.2816, 0.9],
    [2, 0.9772499],
    [3, 0.9986501],
    [-1, 0.1586553],
  ])(
    'has at %f deviations the share of the normal curve (Abramowitz & Stegun 1964, table 26.1)',
    (deviations, share) => {
      expect(Math.abs(normalShare(deviations) - share)).toBeLessThan(1e-5)
    },
  )

  it('takes 0.41 magnitudes of light from half to nine in ten for the deviation of one observer (Blackwell 1952: 1.62)', () => {
    expect(mag(1.62) / 1.2816).toBeCloseTo(0.41, 2)
    const deviation = Math.hypot(0.41, 0.6)
    expect(chanceAt(deviation)).toBeCloseTo(0.8413, 4)
  })

  it.each([
    [-1, 0.08],
    [-0.5, 0.25],
    [0, 0.5],
    [0.5, 0.75],
    [1, 0.92],
    [1.5, 0.98],
  ])('is at %f magnitudes %f (reckoned)', (margin, chance) => {
    expect(Math.abs(chanceAt(margin) - chance)).toBeLessThan(0.006)
  })
})

describe('dazzle after half a minute at the Moon', () => {
  /** Share of bleached rods after so many seconds: dB/dt = I (1 - B) / Q - B / 400 s (Rushton & Powell 1972; Hood & Finkelstein 1986). */
  const bleached = (moonCd: number, seconds: number) => {
    const trolands = 0.75 * moonCd * Math.PI * 1 ** 2 * 1.4 // 2 mm exit pupil, three quarters of the light, scotopic
    const rate = trolands / 1e7
    const share = rate / (rate + 1 / 400)
    return share * (1 - Math.exp(-seconds * (rate + 1 / 400)))
  }
  const lostMag = (moonCd: number) => 2.5 * 12 * bleached(moonCd, 30)

  it('costs 1.2 magnitudes at full Moon and 0.3 at the half, by the law of rods', () => {
    const up = { altitudeDeg: 40, phaseAngleDeg: 0 }
    expect(Math.abs(dazzleMag(up) - lostMag(4000))).toBeLessThan(0.1) // luminances of the Moon: from memory
    expect(Math.abs(dazzleMag({ ...up, phaseAngleDeg: 90 }) - lostMag(1000))).toBeLessThan(0.03)
    expect(dazzleMag({ ...up, altitudeDeg: -1 })).toBe(0)
  })
})
