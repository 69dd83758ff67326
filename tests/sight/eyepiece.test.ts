import { describe, expect, it } from 'vitest'
import { bestView } from '../../server/sight/eyepiece.ts'
import { framesDeg } from '../../server/sight/frame.ts'
import { highestPower } from '../../server/sight/power.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { conditionsWith, darkNight, moonNight, things } from '../support/sight-data.ts'

const optics = { apertureMm: 150, focalLengthMm: 1200, obstruction: 0.22, transmission: 0.85 }
const oculars = [32, 25, 18, 10, 5].map((focalLengthMm) => ({ focalLengthMm, apparentFieldDeg: 52, fieldStopMm: null }))
const night = conditionsWith({ seeingArcsec: 2.5 })
const power = (subject: Subject, aim: 'whole' | 'close' = 'whole', geometry = moonNight) =>
  bestView(subject, geometry, optics, oculars, night, aim).view.powerX

describe('the eyepiece to use', () => {
  it('shows the whole Moon in the field, and a part of it at about a hundred times', () => {
    const whole = bestView(things.halfMoon, moonNight, optics, oculars, night, 'whole').view
    expect(whole.trueFieldDeg).toBeGreaterThan(31 / 60)
    expect(power(things.halfMoon, 'close')).toBe(120)
  })

  it('goes up for planets and down for wide clusters', () => {
    expect(power(things.saturn)).toBe(120)
    expect(power(things.pleiades)).toBe(37.5)
    expect(power(things.m57)).toBeGreaterThan(60)
  })

  it('never passes twice the aperture nor what the air allows, and takes the weakest where all are too strong', () => {
    expect(highestPower({ ...optics, apertureMm: 60 }, conditionsWith({ seeingArcsec: 1 }))).toBe(120)
    expect(highestPower(optics, night)).toBe(140)
    const strong = [4, 3].map((focalLengthMm) => ({ focalLengthMm, apparentFieldDeg: 50, fieldStopMm: null }))
    expect(bestView(things.saturn, darkNight, optics, strong, night, 'whole').ocularIndex).toBe(0)
  })

  it('takes the widest where none frames the thing', () => {
    const seen = bestView(things.coathanger, darkNight, optics, oculars, night, 'whole')
    expect(seen.ocularIndex).toBe(0)
    expect(seen.view.trueFieldDeg).toBeLessThan(framesDeg(things.coathanger))
  })

  it('answers for a thing that is down, and refuses a tube without an eyepiece', () => {
    const down = bestView(things.m13, { ...darkNight, altitudeDeg: -3 }, optics, oculars, night, 'whole')
    expect(down.sighting.chance).toBe(0)
    expect(() => bestView(things.m13, darkNight, optics, [], night, 'whole')).toThrow(RangeError)
  })

  it('needs no field for a star, the whole width for a cluster, the heart of a galaxy', () => {
    expect(framesDeg(things.star)).toBe(0)
    expect(framesDeg(things.pleiades)).toBeCloseTo(110 / 60 / 0.7, 9)
    expect(framesDeg(things.m51)).toBeLessThan(11 / 60)
    expect(framesDeg(things.coathanger)).toBe(1.8)
  })
})
