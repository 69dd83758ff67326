import type { MessageValues } from '../errors.ts'
import type { Svg } from './svg.ts'
import type { Drawn, DrawnEllipse, DrawnStar, Paper, PaperTurn } from './thing-paper.ts'

/** One view is so wide, printed 84 mm wide; two stand side by side in 850 units, printed 170 mm wide. */
export const COLUMN = 420
export const GAP = 10
/** The field circle: 60 mm wide in print. */
export const RADIUS = 150
/** What is kept free around the circle for its arrows. */
export const RIM_ROOM = 34
export const LETTER_PX = 22
/** Letters of 22 units are 12.4 points high where a view is printed 84 mm wide. */
export const FIELD_LETTERS = { 'font-size': LETTER_PX, fill: 'currentColor' }
export const LINE_PX = 28

/** How the sky stands in an eyepiece, and by how much the north of the catalogue's angles leans away from that of the date. */
export interface Frame {
  readonly turn: PaperTurn
  readonly poleDeg: number
}

/** A part of the paper in which a thing is drawn; what lies outside the circle is left out, where there is one. */
export interface FieldPaper extends Paper {
  readonly turn: PaperTurn
  readonly circlePx: number | null
  /** Words stand between these. */
  readonly edgesPx: readonly [left: number, right: number]
  /** Signs stand beside moons and features. */
  readonly hasSigns: boolean
}

/** A disc of a planet or the Moon as it was drawn: directions in degrees clockwise from up on the paper. */
export interface DrawnDisc {
  readonly x: number
  readonly y: number
  readonly radiusPx: number
  readonly polarPx: number
  readonly axisDeg: number
  /** Where the middle of the bright limb lies, and where the line between day and night runs. */
  readonly limbDeg: number
  readonly litFraction: number
  readonly terminator: readonly (readonly [number, number])[]
}

/** A moon or a feature as it was drawn, with the sign that its legend explains. */
export interface DrawnMark {
  readonly name: string
  readonly sign: string
  readonly x: number
  readonly y: number
}

/** What was drawn of one view. */
export interface FieldDrawn extends Drawn {
  readonly discs: readonly DrawnDisc[]
  readonly marks: readonly DrawnMark[]
}

/** A code with values: the drawing makes the sentence. */
export interface Said {
  readonly code: string
  readonly values?: MessageValues
}

/** What stands in the middle of a field. */
export interface Matter {
  readonly draw: (paper: FieldPaper) => FieldDrawn
  /** Half of its width and height on the paper in units at one unit an arcminute, around a place so far east and north of the field's middle. */
  readonly reach: readonly [number, number]
  readonly offArcmin: readonly [eastArcmin: number, northArcmin: number]
  /** The part that must be seen, in arcminutes, and what is said where it is shorter than so many units in the circle. */
  readonly leastArcmin: number
  readonly tooSmall: { readonly belowPx: number; readonly code: string } | null
  /** It is drawn once more, larger, where that part is shorter than so many units; `mostPxPerArcmin` says how large at most, `signsPx` how far signs reach above and below it. */
  readonly inset: { readonly belowPx: number; readonly mostPxPerArcmin: number; readonly signsPx: number } | null
  readonly notes: readonly Said[]
}

/** The smallest dot that a photocopy keeps. */
export const LEAST_DOT_PX = 1.4
/** What is smaller than a dot is drawn as one, larger than it is. */
export const AS_A_DOT = { belowPx: 2 * LEAST_DOT_PX, code: 'field-drawing.note-larger' }

export const drawnField = (
  svg: readonly Svg[],
  { ellipses = [], stars = [], discs = [], marks = [] }: Partial<Omit<FieldDrawn, 'svg'>> = {},
): FieldDrawn => ({ svg, ellipses, stars, discs, marks })

export const fieldsTogether = (...parts: readonly FieldDrawn[]): FieldDrawn => ({
  svg: parts.flatMap(({ svg }) => svg),
  ellipses: parts.flatMap(({ ellipses }): readonly DrawnEllipse[] => ellipses),
  stars: parts.flatMap(({ stars }): readonly DrawnStar[] => stars),
  discs: parts.flatMap(({ discs }) => discs),
  marks: parts.flatMap(({ marks }) => marks),
})

/** True where a place of the paper lies in the circle, so far from its rim at least. */
export const isInCircle = ({ x, y, circlePx }: FieldPaper, px: number, py: number, rimPx = 0): boolean =>
  circlePx === null || Math.hypot(px - x, py - y) <= circlePx - rimPx
