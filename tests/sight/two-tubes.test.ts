import { describe, expect, it } from 'vitest'
import { framesDeg } from '../../server/sight/frame.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { wideAndClose } from '../../server/sight/two-tubes.ts'
import { conditionsWith, darkNight, moonNight, things } from '../support/sight-data.ts'

const wide = { apertureMm: 72, focalLengthMm: 432, obstruction: 0, transmission: 0.9 }
const close = { apertureMm: 130, focalLengthMm: 650, obstruction: 0.3, transmission: 0.8 }
const ocular = (focalLengthMm: number) => ({ focalLengthMm, apparentFieldDeg: 65, fieldStopMm: null })
const oculars = [26, 24, 16, 6].map(ocular)
const night = conditionsWith({})
const pairOf = (subject: Subject, geometry = darkNight, kit = oculars) =>
  wideAndClose(subject, geometry, { wide, close }, kit, night)

describe('two tubes on one mount', () => {
  it('show the whole of a wide thing in the shorter and a part of it in the longer', () => {
    const pair = pairOf(things.pleiades)
    expect(pair?.wide.view.optics).toBe(wide)
    expect(pair?.close.view.optics).toBe(close)
    expect(pair?.wide.view.trueFieldDeg).toBeGreaterThanOrEqual(framesDeg(things.pleiades))
    expect(pair?.close.view.trueFieldDeg).toBeLessThan(framesDeg(things.pleiades))
    expect(pair?.wide.ocularIndex).not.toBe(pair?.close.ocularIndex)
    for (const look of [pair?.wide, pair?.close]) expect(look?.sighting.view).toBeGreaterThanOrEqual(0.6)
  })

  it('show the whole Moon and a part of it', () => {
    const pair = pairOf(things.halfMoon, moonNight, [ocular(24), ocular(5)])
    expect(pair?.wide.view.trueFieldDeg).toBeGreaterThan(31 / 60)
    expect(pair?.close.view.trueFieldDeg).toBeLessThan(31 / 60)
  })

  it('are not used both for a thing that both frame, such as two stars', () => {
    expect(pairOf(things.albireo)).toBeNull()
  })

  it('are not used both where one shows no shape to most, or the case holds one eyepiece', () => {
    expect(pairOf(things.m51)).toBeNull()
    expect(pairOf(things.pleiades, darkNight, [ocular(24)])).toBeNull()
  })

  it('never go past the power that a tube bears', () => {
    const pair = pairOf(things.halfMoon, moonNight, [ocular(24), ocular(2)])
    expect(pair).toBeNull()
  })
})
