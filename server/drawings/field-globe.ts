import { radians } from '../sky/angles.ts'
import { litFractionOf } from '../sky/globe.ts'
import type { DrawnDisc, FieldPaper } from './field-paper.ts'
import { clockwiseOn, placeOn } from './thing-paper.ts'

/** A globe of the sky: where its middle lies in the field, how large it is, how its axis leans and where its light comes from. */
export interface Globe {
  readonly eastArcmin: number
  readonly northArcmin: number
  readonly radiusArcmin: number
  readonly polarShare: number
  readonly axisAngleDeg: number
  /** Position angle of the middle of the bright limb, and the angle Sun - globe - eye. */
  readonly limbAngleDeg: number
  readonly phaseAngleDeg: number
}

type Point = readonly [number, number]
const HALF = Array.from({ length: 41 }, (_, i) => radians(-90 + 4.5 * i))

/** So many radii towards a position angle and to the left of it (as angles grow) from the middle of a globe. */
export function onGlobe(paper: FieldPaper, globe: Globe, angleDeg: number, along: number, across: number): Point {
  const [sine, cosine] = [Math.sin(radians(angleDeg)), Math.cos(radians(angleDeg))]
  const { eastArcmin, northArcmin, radiusArcmin } = globe
  return placeOn(
    paper,
    eastArcmin + radiusArcmin * (along * sine + across * cosine),
    northArcmin + radiusArcmin * (along * cosine - across * sine),
  )
}

/** The line between day and night from horn to horn, half of an ellipse (Meeus, 2nd ed., chapter 41: the phase is its share of the disc). */
export const terminatorOf = (paper: FieldPaper, globe: Globe): readonly Point[] =>
  HALF.map((t) =>
    onGlobe(paper, globe, globe.limbAngleDeg, -Math.cos(radians(globe.phaseAngleDeg)) * Math.cos(t), Math.sin(t)),
  )

/** The half of the rim that is lit, or the half that is not. */
export const limbOf = (paper: FieldPaper, globe: Globe, side: 'lit' | 'dark'): readonly Point[] =>
  HALF.map((t) => onGlobe(paper, globe, globe.limbAngleDeg, (side === 'lit' ? 1 : -1) * Math.cos(t), Math.sin(t)))

/** A globe as it stands on the paper. */
export function discOf(paper: FieldPaper, globe: Globe): DrawnDisc {
  const [x, y] = placeOn(paper, globe.eastArcmin, globe.northArcmin)
  const radiusPx = globe.radiusArcmin * paper.pxPerArcmin
  return {
    x,
    y,
    radiusPx,
    polarPx: radiusPx * globe.polarShare,
    axisDeg: clockwiseOn(paper.turn, globe.axisAngleDeg),
    limbDeg: clockwiseOn(paper.turn, globe.limbAngleDeg),
    litFraction: litFractionOf(globe.phaseAngleDeg),
    terminator: terminatorOf(paper, globe),
  }
}
