import { type BodyKey, type BodyLook, bodyLooks } from '../sky/body.ts'
import { directionDeg } from '../sky/direction.ts'
import { type JupiterFace, jupiterFace } from '../sky/jupiter.ts'
import type { Place } from '../sky/place.ts'
import { discOf, type Globe, limbOf, onGlobe, terminatorOf } from './field-globe.ts'
import {
  AS_A_DOT,
  drawnField,
  type FieldDrawn,
  type FieldPaper,
  fieldsTogether,
  LEAST_DOT_PX,
  type Matter,
} from './field-paper.ts'
import { pointsText, type Svg, svgElement } from './svg.ts'
import { BANDS } from './thing-bodies.ts'
import { boundsOf, clockwiseOn, type PaperTurn } from './thing-paper.ts'
import { starDot } from './thing-stars.ts'

/** A planet as it stands at the instant: its look from the place, and where its bright limb lies. */
export interface PlanetNow {
  readonly look: BodyLook
  readonly limbAngleDeg: number
}

/** A body and its bright limb at an instant: the limb looks to where the Sun is. */
export function planetNow(key: BodyKey, at: Date, place: Place): PlanetNow {
  const [look, sun] = bodyLooks([key, 'sun'], at, place)
  if (look === undefined || sun === undefined) throw new Error(`No place of ${key}`)
  return { look, limbAngleDeg: directionDeg(look, sun) }
}

const INSET_BELOW_PX = 100
export const PLANET_INSET = { belowPx: INSET_BELOW_PX, mostPxPerArcmin: 220, signsPx: 0 }
/** Less phase than this shows on no drawing: the planet is drawn full. */
const FULL_DEG = 15
const SOLID_PX = 5

export const roundGlobe = ({ look, limbAngleDeg }: PlanetNow): Globe => ({
  eastArcmin: 0,
  northArcmin: 0,
  radiusArcmin: look.diameterArcsec / 120,
  polarShare: 1,
  axisAngleDeg: 0,
  limbAngleDeg,
  phaseAngleDeg: look.phaseAngleDeg,
})

/** A planet whose disc alone is seen, with its phase. */
export function planetMatter(now: PlanetNow): Matter {
  const globe = roundGlobe(now)
  const isPhased = globe.phaseAngleDeg > FULL_DEG
  return {
    draw: (paper) => drawGlobe(paper, globe),
    reach: [globe.radiusArcmin, globe.radiusArcmin],
    offArcmin: [0, 0],
    leastArcmin: 2 * globe.radiusArcmin,
    tooSmall: AS_A_DOT,
    inset: PLANET_INSET,
    notes: isPhased ? [{ code: 'field-drawing.note-phase' }] : [],
  }
}

/** A globe: a dot where it is too small for a disc, its lit part where it has a phase, else its rim. */
export function drawGlobe(paper: FieldPaper, globe: Globe): FieldDrawn {
  const disc = discOf(paper, globe)
  const { x, y, radiusPx, polarPx, axisDeg } = disc
  if (radiusPx < LEAST_DOT_PX)
    return drawnField([starDot({ x, y, radiusPx: LEAST_DOT_PX, magnitude: 0 })], { discs: [disc] })
  const ink = { fill: radiusPx < SOLID_PX ? 'currentColor' : 'white', stroke: 'currentColor', 'stroke-width': 1.4 }
  if (globe.phaseAngleDeg > FULL_DEG) {
    const lit = [...limbOf(paper, globe, 'lit'), ...terminatorOf(paper, globe).toReversed()]
    const points = pointsText(lit)
    return drawnField([svgElement('polygon', { points, ...ink, 'stroke-linejoin': 'round' })], { discs: [disc] })
  }
  const transform = `rotate(${axisDeg.toFixed(2)} ${x.toFixed(2)} ${y.toFixed(2)})`
  return drawnField([svgElement('ellipse', { cx: x, cy: y, rx: radiusPx, ry: polarPx, transform, ...ink })], {
    discs: [disc],
  })
}

/** Jupiter's flattened globe with its two dark belts, which are a sketch. */
export function drawJupiter(paper: FieldPaper, globe: Globe): FieldDrawn {
  const isLarge = globe.radiusArcmin * paper.pxPerArcmin >= 2 * SOLID_PX
  return fieldsTogether(drawGlobe(paper, globe), drawnField(isLarge ? BANDS.map((at) => belt(paper, globe, at)) : []))
}

const BELT_SHARE = 0.09

function belt(paper: FieldPaper, globe: Globe, at: number): Svg {
  const half = 0.97 * Math.sqrt(1 - at ** 2)
  const [one, other] = [half, -half].map((across) =>
    onGlobe(paper, globe, globe.axisAngleDeg, at * globe.polarShare, across),
  )
  return svgElement('polyline', {
    points: pointsText([one ?? [0, 0], other ?? [0, 0]]),
    fill: 'none',
    stroke: 'currentColor',
    'stroke-width': BELT_SHARE * globe.radiusArcmin * paper.pxPerArcmin,
  })
}

/** The globe of Jupiter as its face says: flattened and leaning. */
const jupiterGlobe = (face: JupiterFace): Globe => ({
  eastArcmin: 0,
  northArcmin: 0,
  radiusArcmin: face.equatorialArcsec / 120,
  polarShare: face.polarArcsec / face.equatorialArcsec,
  axisAngleDeg: face.positionAngleDeg,
  limbAngleDeg: face.positionAngleDeg + 90,
  phaseAngleDeg: 0,
})

export const jupiterAt = (at: Date): Globe => jupiterGlobe(jupiterFace(at))

/** Half of the width and height of a line of parts along an axis, and of a globe in the middle. */
export const reachAlong = (turn: PaperTurn, alongAngleDeg: number, half: number, thick: number) =>
  boundsOf(half, thick, clockwiseOn(turn, alongAngleDeg))
