import { describe, expect, it } from 'vitest'
import { bestView } from '../../server/sight/eyepiece.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { wideAndClose } from '../../server/sight/two-tubes.ts'
import { conditionsWith, darkNight, moonNight, things } from '../support/sight-data.ts'

const small = { apertureMm: 72, focalLengthMm: 432, obstruction: 0, transmission: 0.9 }
const large = { apertureMm: 130, focalLengthMm: 650, obstruction: 0.3, transmission: 0.8 }
const oculars = [26, 24, 16, 6].map((focalLengthMm) => ({ focalLengthMm, apparentFieldDeg: 65, fieldStopMm: null }))
const night = conditionsWith({})

function pairOf(subject: Subject, geometry = darkNight) {
  const first = bestView(subject, geometry, small, oculars, night, 'whole')
  const left = oculars.filter((_, i) => i !== first.ocularIndex)
  const pair = wideAndClose(subject, geometry, first, { optics: large, oculars: left }, night)
  return { first, pair }
}

describe('two tubes on one mount', () => {
  it('show the Pleiades whole in one and their stars close in the other', () => {
    const { first, pair } = pairOf(things.pleiades)
    expect(pair?.wide).toBe(first)
    expect(pair?.close).toBe(pair?.beside)
    expect(pair?.wide.view.trueFieldDeg).toBeGreaterThan(1.4 * (pair?.close.view.trueFieldDeg ?? 99))
    expect(pair?.close.view.optics).toBe(large)
    expect(pair?.close.sighting.chance).toBeGreaterThan(0.5)
  })

  it('show the whole Moon beside a part of it', () => {
    const { pair } = pairOf(things.halfMoon, moonNight)
    expect(pair?.wide.view.trueFieldDeg).toBeGreaterThan(31 / 60)
    expect(pair?.close.view.trueFieldDeg).toBeLessThan(pair?.wide.view.trueFieldDeg ?? 0)
  })

  it('leave the second capped where it shows nothing to most, nothing more, or has no eyepiece left', () => {
    expect(pairOf(things.m51).pair).toBeNull()
    const first = bestView(things.pleiades, darkNight, small, oculars, night, 'whole')
    expect(wideAndClose(things.pleiades, darkNight, first, { optics: large, oculars: [] }, night)).toBeNull()
    const again = { optics: small, oculars: oculars.slice(first.ocularIndex, first.ocularIndex + 1) }
    expect(wideAndClose(things.pleiades, darkNight, first, again, night)).toBeNull()
  })

  it('never go past the power that the second tube bears', () => {
    const strong = [{ focalLengthMm: 2, apparentFieldDeg: 65, fieldStopMm: null }]
    const first = bestView(things.halfMoon, moonNight, small, oculars, night, 'whole')
    expect(wideAndClose(things.halfMoon, moonNight, first, { optics: large, oculars: strong }, night)).toBeNull()
  })
})
