import { radians } from '../sky/angles.ts'
import type { BodyKey } from '../sky/body.ts'
import type { Impression, Look } from './impression.ts'
import { UNLIMITED_MAG, viewOf } from './impression.ts'
import type { Limit } from './limit.ts'
import type { View } from './optics.ts'
import { uniformMargin } from './patch.ts'
import { moonsSeen } from './planet-moons.ts'
import { ramp } from './ramp.ts'
import type { PlanetSubject } from './subject.ts'

const RAYLEIGH_ARCSEC_MM = 138
const STEADY_SHARE = 0.5 // the eye keeps the steady moments (a choice)
const DISPERSION_ARCSEC = 0.41 // spread of 500 to 600 nm at 45 degrees, Filippenko, PASP 94 (1982), 715
const LOWEST_DEG = 5

/** Width in arcseconds of a point's spread into colours by the air, 500 to 600 nm. */
export const dispersionArcsec = (altitudeDeg: number): number =>
  DISPERSION_ARCSEC / Math.tan(radians(Math.max(LOWEST_DEG, Math.min(90, altitudeDeg))))

/** The smallest detail on a disc in arcseconds: diffraction, the steadier moments of the seeing, and the colour spread by the air, in quadrature. */
export function detailArcsec(apertureMm: number, blurArcsec: number, altitudeDeg: number): number {
  return Math.hypot(RAYLEIGH_ARCSEC_MM / apertureMm, STEADY_SHARE * blurArcsec, dispersionArcsec(altitudeDeg))
}

/** What the disc of each planet has to show: [details across it] and [apparent arcminutes] between which a part of the view grows from 0 to 1, and the most of that part. All are choices, from common practice at public nights. */
interface Part {
  readonly details: readonly [number, number]
  readonly arcmin: readonly [number, number]
  readonly most: number
}
interface Face {
  readonly shape: Part
  readonly detail: Part
  readonly gasp: Part
}
const part = (details: Part['details'], arcmin: Part['arcmin'], most = 1): Part => ({ details, arcmin, most })
const NONE = part([1, 2], [1, 2], 0)
const INNER: Face = { shape: part([4, 9], [8, 20]), detail: part([8, 20], [20, 50], 0.8), gasp: NONE }
const FACES: Partial<Record<BodyKey, Face>> = {
  mercury: INNER,
  venus: INNER,
  mars: { shape: part([3, 8], [10, 30], 0.8), detail: part([8, 16], [25, 50]), gasp: NONE },
  jupiter: { shape: part([4, 9], [12, 30]), detail: part([9, 20], [35, 75]), gasp: part([18, 28], [60, 110], 0.7) },
  saturn: { shape: part([4, 10], [14, 35]), detail: part([8, 18], [30, 70]), gasp: part([14, 24], [55, 100]) },
  uranus: { shape: part([1, 3], [4, 10], 0.3), detail: NONE, gasp: NONE },
}
const FAINT_FACE: Face = { shape: part([1, 3], [4, 10], 0.1), detail: NONE, gasp: NONE } // Neptune

const reached = ({ details, arcmin, most }: Part, detailCount: number, apparentArcmin: number): number =>
  most * ramp(detailCount, details[0], details[1]) * ramp(apparentArcmin, arcmin[0], arcmin[1])

/** How much of a form the planet has beyond a round dot, 0 to 1: the opening of the ring, the bite out of the inner planets. */
function form({ body, litFraction, ringMajorArcsec, ringMinorArcsec }: PlanetSubject): number {
  if (body === 'saturn') return 0.4 + 0.6 * ramp(ringMinorArcsec / Math.max(1, ringMajorArcsec), 0.02, 0.12)
  if (body === 'venus' || body === 'mercury') return ramp(1 - litFraction, 0.15, 0.5)
  return 1
}

/** Width in arcseconds of what people look at: the ring where there is one. */
export const widthArcsec = ({ diameterArcsec, ringMajorArcsec }: PlanetSubject): number =>
  Math.max(diameterArcsec, ringMajorArcsec)

const SQUARE_ARCSEC_PER_ARCMIN = 3600

/** How many of its smallest details the width of the planet holds. */
const detailsAcross = (planet: PlanetSubject, view: View, limit: Limit): number =>
  widthArcsec(planet) / detailArcsec(view.optics.apertureMm, limit.blurArcsec, limit.altitudeDeg)

const apparentArcmin = (planet: PlanetSubject, view: View): number => (widthArcsec(planet) * view.powerX) / 60

/** How far what is on the disc shows, 0 to 1: stripes, the gap between ring and globe, dark lands, the bite of a phase. */
export function discDetail(planet: PlanetSubject, view: View, limit: Limit): number {
  const face = FACES[planet.body] ?? FAINT_FACE
  return form(planet) * reached(face.detail, detailsAcross(planet, view, limit), apparentArcmin(planet, view))
}

/** A row of three dots beside a disc is most of a shape of its own (a choice): moons are seen before stripes. */
const ROW_OF_MOONS = 0.8

const moonRow = (planet: PlanetSubject, view: View, limit: Limit): number =>
  planet.body !== 'jupiter' || planet.moons === undefined
    ? 0
    : ROW_OF_MOONS * ramp(moonsSeen(planet.moons, planet.diameterArcsec, view, limit), 0.5, 3)

/** A planet: its lit disc against the sky by day or night, what can be told on it, and the moons beside it. */
export function planetLook(planet: PlanetSubject, view: View): Look {
  const face = FACES[planet.body] ?? FAINT_FACE
  const arcmin = apparentArcmin(planet, view)
  const litArea = (Math.PI / 4) * (planet.diameterArcsec ** 2 * planet.litFraction)
  const shaped = form(planet)
  return (limit: Limit): Impression => {
    const spread = (Math.PI / 4) * limit.blurArcsec ** 2
    const lightMag = uniformMargin(limit, planet.magnitude, (litArea + spread) / SQUARE_ARCSEC_PER_ARCMIN)
    const details = detailsAcross(planet, view, limit)
    const disc = shaped * reached(face.shape, details, arcmin)
    const shape = ramp(lightMag, 0, 2) * Math.max(disc, moonRow(planet, view, limit))
    const detail = shaped * reached(face.detail, details, arcmin)
    const gasp = reached(face.gasp, details, arcmin)
    return { lightMag, otherMag: UNLIMITED_MAG, view: viewOf(lightMag, shape, detail, gasp) }
  }
}
