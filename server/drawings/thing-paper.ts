import { radians } from '../sky/angles.ts'
import { digestOf } from '../tours/digest.ts'
import { type Svg, svgElement } from './svg.ts'

/** How the sky stands on a paper: north turned clockwise from up, and then left and right changed over. */
export interface PaperTurn {
  readonly clockwiseDeg: number
  readonly isMirrored: boolean
}

const NORTH_UP: PaperTurn = { clockwiseDeg: 0, isMirrored: false }

/** Where a thing is drawn: its middle on the paper, and the scale. North is up and east is left unless it is turned. */
export interface Paper {
  readonly x: number
  readonly y: number
  readonly pxPerArcmin: number
  /** True for the little picture beside a name, which has no letters. */
  readonly isSmall: boolean
  readonly turn?: PaperTurn
}

/** An ellipse as it was drawn: half of its long and short side in units of the picture, and how far its long side leans from up to the left in degrees (with north up its position angle). */
export interface DrawnEllipse {
  readonly x: number
  readonly y: number
  readonly halfMajorPx: number
  readonly halfMinorPx: number
  readonly angleDeg: number
}

/** A star as it was drawn. */
export interface DrawnStar {
  readonly x: number
  readonly y: number
  readonly radiusPx: number
  readonly magnitude: number
}

/** What was put on the paper. */
export interface Drawn {
  readonly svg: readonly Svg[]
  readonly ellipses: readonly DrawnEllipse[]
  readonly stars: readonly DrawnStar[]
}

/** What is drawn of a thing, before anyone says where: how wide and high it is, and what must be said of it. */
export interface Sketch {
  readonly widthArcmin: number
  readonly heightArcmin: number
  readonly draw: (paper: Paper) => Drawn
  /** Codes of the sentences below the picture. */
  readonly notes: readonly string[]
  /** How large it is: the code of a phrase, and its one or two angles in arcminutes. */
  readonly size: { readonly code: string; readonly arcmin: readonly [number, number?] }
  readonly labels?: readonly Label[]
  /** True when nothing stands beside it to tell its size: it is the Moon itself. */
  readonly isOwnMeasure?: boolean
}

/** A word beside a place of the picture, moved away from it by so many units. */
export interface Label {
  readonly eastArcmin: number
  readonly northArcmin: number
  readonly offPx: readonly [number, number]
  /** As it is printed, or the code of it. */
  readonly text: string | { readonly code: string }
}

export const together = (...parts: readonly Drawn[]): Drawn => ({
  svg: parts.flatMap(({ svg }) => svg),
  ellipses: parts.flatMap(({ ellipses }) => ellipses),
  stars: parts.flatMap(({ stars }) => stars),
})

/** The letters of a picture: no smaller than twelve pixels on a phone. */
export const LETTERS = { 'font-size': 18, fill: 'currentColor' }

/** Half of the width and height that an ellipse takes up, its long side turned from north through east. */
export function boundsOf(halfMajor: number, halfMinor: number, angleDeg: number): readonly [number, number] {
  const [sine, cosine] = [Math.sin(radians(angleDeg)), Math.cos(radians(angleDeg))]
  return [Math.hypot(halfMajor * sine, halfMinor * cosine), Math.hypot(halfMajor * cosine, halfMinor * sine)]
}

/** A place beside the middle, in arcminutes east and north of it. */
export function placeOn(
  { x, y, pxPerArcmin, turn = NORTH_UP }: Paper,
  eastArcmin: number,
  northArcmin: number,
): [number, number] {
  const [sine, cosine] = [Math.sin(radians(turn.clockwiseDeg)), Math.cos(radians(turn.clockwiseDeg))]
  const right = northArcmin * sine - eastArcmin * cosine
  const up = northArcmin * cosine + eastArcmin * sine
  return [x + (turn.isMirrored ? -right : right) * pxPerArcmin, y - up * pxPerArcmin]
}

/** How far from up to the right, in degrees, a position angle of the sky points on the paper. */
export const clockwiseOn = (turn: PaperTurn, positionAngleDeg: number): number =>
  (turn.isMirrored ? -1 : 1) * (turn.clockwiseDeg - positionAngleDeg)

/** The same number for the same key, to draw its dots from. */
export const seedOf = (key: string): number => Number.parseInt(digestOf(key).slice(0, 8), 16)

const tenth = (value: number): string => String(Math.round(value * 10) / 10)

/** Many equal dots as one path: round ends of strokes without length. */
export const dotsOf = (places: readonly (readonly [number, number])[], widthPx: number): Svg =>
  svgElement('path', {
    d: places.map(([x, y]) => `M${tenth(x)} ${tenth(y)}h.1`).join(''),
    fill: 'none',
    stroke: 'currentColor',
    'stroke-width': widthPx,
    'stroke-linecap': 'round',
  })
