import { radians } from '../sky/angles.ts'
import { type SaturnRing, saturnRing } from '../sky/saturn.ts'
import { type Globe, onGlobe } from './field-globe.ts'
import {
  AS_A_DOT,
  drawnField,
  type FieldDrawn,
  type FieldPaper,
  type Frame,
  fieldsTogether,
  type Matter,
} from './field-paper.ts'
import { drawGlobe, PLANET_INSET, type PlanetNow, reachAlong, roundGlobe } from './field-planets.ts'
import { pointsText, type Svg, svgElement } from './svg.ts'
import { clockwiseOn, type DrawnEllipse } from './thing-paper.ts'

/** Edges of the rings as shares of the outer one: the gap between them, and the inner edge of the bright ring (Meeus, 2nd ed., chapter 45, from memory). */
const GAP_SHARES = [0.88, 0.86] as const
const INNER_SHARE = 0.665
/** Saturn's polar over its equatorial radius (IAU 2015: 54,364 km over 60,268 km; from memory). */
const FLAT_SHARE = 54_364 / 60_268
const GAP_FROM_PX = 40

/** Saturn with its ring as open and as much leaning as at the instant. */
export function saturnMatter(now: PlanetNow, at: Date, { turn }: Frame): Matter {
  const ring = saturnRing(at)
  const tilt = radians(ring.tiltEarthDeg)
  const polarShare = Math.hypot(FLAT_SHARE * Math.cos(tilt), Math.sin(tilt))
  const globe = { ...roundGlobe(now), polarShare, axisAngleDeg: ring.positionAngleDeg, phaseAngleDeg: 0 }
  const [half, thick] = [ring.majorArcsec / 120, Math.max(ring.minorArcsec / 120, globe.radiusArcmin * polarShare)]
  return {
    draw: (paper) => drawSaturn(paper, globe, ring),
    reach: reachAlong(turn, ring.positionAngleDeg + 90, half, thick),
    offArcmin: [0, 0],
    leastArcmin: 2 * half,
    tooSmall: AS_A_DOT,
    inset: PLANET_INSET,
    notes: [{ code: 'field-drawing.note-ring' }],
  }
}

const WHOLE = Array.from({ length: 73 }, (_, i) => radians(5 * i))
const NEAR = Array.from({ length: 37 }, (_, i) => radians(-90 + 5 * i))

/** The far half of the ring, the globe, and the near half before it: that is the half away from the pole that leans to the eye. */
function drawSaturn(paper: FieldPaper, globe: Globe, ring: SaturnRing): FieldDrawn {
  const outerPx = (ring.majorArcsec / 120) * paper.pxPerArcmin
  const outer: DrawnEllipse = {
    x: paper.x,
    y: paper.y,
    halfMajorPx: outerPx,
    halfMinorPx: (ring.minorArcsec / 120) * paper.pxPerArcmin,
    angleDeg: -clockwiseOn(paper.turn, ring.positionAngleDeg + 90),
  }
  const edge = edgeOf(paper, ring)
  const gaps = outerPx < GAP_FROM_PX ? [] : GAP_SHARES
  const whole = drawnField(
    [
      loop(edge(1, WHOLE), 'white'),
      ...gaps.map((share) => loop(edge(share, WHOLE), 'none')),
      loop(edge(INNER_SHARE, WHOLE), 'white'),
    ],
    { ellipses: [outer] },
  )
  const near = [
    loop([...edge(1, NEAR), ...edge(INNER_SHARE, NEAR).toReversed()], 'white'),
    ...gaps.map((share) => line(edge(share, NEAR))),
  ]
  return fieldsTogether(whole, drawGlobe(paper, globe), drawnField(near))
}

/** Points of an edge of the ring; angle 0 is the point nearest to the eye. */
function edgeOf(paper: FieldPaper, ring: SaturnRing) {
  const globe = {
    eastArcmin: 0,
    northArcmin: 0,
    radiusArcmin: ring.majorArcsec / 120,
    polarShare: 1,
    axisAngleDeg: ring.positionAngleDeg,
    limbAngleDeg: 0,
    phaseAngleDeg: 0,
  }
  const open = Math.sin(radians(ring.tiltEarthDeg))
  return (share: number, turns: readonly number[]) =>
    turns.map((t) => onGlobe(paper, globe, ring.positionAngleDeg, -share * open * Math.cos(t), share * Math.sin(t)))
}

const INK = { stroke: 'currentColor', 'stroke-width': 1.2, 'stroke-linejoin': 'round' }

const loop = (points: readonly (readonly [number, number])[], fill: string): Svg =>
  svgElement('polygon', { points: pointsText(points), fill, ...INK })

const line = (points: readonly (readonly [number, number])[]): Svg =>
  svgElement('polyline', { points: pointsText(points), fill: 'none', ...INK })
