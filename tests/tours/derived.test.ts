import { describe, expect, it } from 'vitest'
import { surfaceBrightness, trueSizeLy } from '../../server/tours/derived.ts'
import { showObject } from '../support/show-objects.ts'

describe('surface brightness', () => {
  it('spreads the light of a glow over the ellipse that an eye sees', () => {
    // A round glow of magnitude 0 with an area of exactly one square arcsecond, by hand.
    const side = Math.sqrt(4 / Math.PI) / 60
    const dot = showObject({ kind: 'planetary', magnitude: 0, majorArcmin: side, minorArcmin: side })
    expect(surfaceBrightness(dot)).toBeCloseTo(0, 9)
    const wide = { ...dot, majorArcmin: side * 10, minorArcmin: side * 10 }
    expect(surfaceBrightness(wide)).toBeCloseTo(5, 9)
  })

  it('counts half the light of a globular inside its half-light radius', () => {
    const ball = showObject({ kind: 'globular', magnitude: 6, majorArcmin: 15, minorArcmin: 15, halfLightArcmin: 1 })
    const areaArcsec2 = Math.PI * 60 * 60
    expect(surfaceBrightness(ball)).toBeCloseTo(6 + 2.5 * Math.log10(2 * areaArcsec2), 9)
  })

  it('is none of what does not glow, or of unknown light or size', () => {
    expect(surfaceBrightness(showObject({ kind: 'double', magnitude: 3, majorArcmin: 1, minorArcmin: 1 }))).toBeNull()
    expect(
      surfaceBrightness(showObject({ kind: 'open-cluster', magnitude: 3, majorArcmin: 9, minorArcmin: 9 })),
    ).toBeNull()
    expect(
      surfaceBrightness(showObject({ kind: 'galaxy', magnitude: null, majorArcmin: 9, minorArcmin: 9 })),
    ).toBeNull()
    expect(surfaceBrightness(showObject({ kind: 'galaxy', magnitude: 9 }))).toBeNull()
    expect(surfaceBrightness(showObject({ kind: 'globular', magnitude: 6, majorArcmin: 15 }))).toBeNull()
  })
})

describe('true size', () => {
  it('is the angle times the distance', () => {
    // One radian is 3437.75 arcminutes: so wide, a thing is as large as it is far.
    expect(trueSizeLy(showObject({ majorArcmin: 3437.7467707849396, distanceLy: 700 }))).toBeCloseTo(700, 9)
    expect(trueSizeLy(showObject({ majorArcmin: 60, distanceLy: 1344 }))).toBeCloseTo(23.46, 2)
  })

  it('is unknown where either is', () => {
    expect(trueSizeLy(showObject({ majorArcmin: 60 }))).toBeNull()
    expect(trueSizeLy(showObject({ distanceLy: 60 }))).toBeNull()
  })
})
