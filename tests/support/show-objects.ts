import type { ShowObject } from '../../server/tours/target.ts'

const BLANK: ShowObject = {
  key: 'star',
  name: 'A star',
  designations: [],
  kind: 'star',
  body: null,
  raDeg: 0,
  decDeg: 0,
  pmRaMasYr: 0,
  pmDecMasYr: 0,
  parallaxMas: 0,
  constellation: null,
  magnitude: 2,
  magnitudeBand: 'V',
  magnitudeRange: null,
  bv: 0.5,
  majorArcmin: null,
  minorArcmin: null,
  halfLightArcmin: null,
  angleDeg: null,
  brightestStarMag: null,
  starCount: null,
  componentMagnitudes: null,
  separationArcsec: null,
  pairAngleDeg: null,
  pairYear: null,
  colours: null,
  hips: [],
  fieldDeg: null,
  distanceLy: null,
  appeal: 0.5,
  appealReason: 'invented',
  atOnce: 1,
  sources: {},
}

/** An invented object of the list: a star of magnitude 2 with what is given changed. */
export const showObject = (given: Partial<ShowObject>): ShowObject => ({
  ...BLANK,
  name: given.key ?? BLANK.name,
  ...given,
})
