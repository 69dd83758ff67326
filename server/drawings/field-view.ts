import { tubeView } from '../sight/orientation.ts'
import { wrap360 } from '../sky/angles.ts'
import type { Words } from '../words/words.ts'
import type { FieldCircle, FieldInset, FieldView } from './field.ts'
import { entryLines, fieldText } from './field-letters.ts'
import type { Field } from './field-matter.ts'
import { type DrawnMark, type FieldPaper, fieldsTogether, LETTER_PX, type Matter } from './field-paper.ts'
import { rimWith } from './field-rim.ts'
import { drawNeighbours } from './field-stars.ts'
import { type Svg, svgElement } from './svg.ts'
import { clockwiseOn, placeOn } from './thing-paper.ts'

/** One view as it was drawn, and how far down it reaches. */
export interface DrawnView {
  readonly svg: readonly Svg[]
  readonly circle: FieldCircle
  readonly bottomPx: number
  /** The words beside or below the circle. */
  readonly texts: readonly string[]
  /** What the signs mean where the picture itself has no room to say so. */
  readonly legend: string | null
  /** What must be said because the thing is too small for its circle. */
  readonly tooSmall: string | null
}

/** Where a circle stands and how large it is, and what is kept free around it for its arrows. */
interface CirclePlace {
  readonly x: number
  readonly y: number
  readonly radiusPx: number
  readonly roomPx: number
  /** How far the part of the paper in which it stands reaches to its left and right. */
  readonly sidePx: number
}

/** Where the thing may stand once more: the middle and the top of that part of the paper, half of its size, what is kept free above and below it, and half of the width for its words. */
interface InsetPlace {
  readonly x: number
  readonly topPx: number
  readonly roomPx: number
  readonly sidePx: number
  readonly half: readonly [wide: number, high: number]
}

const TIMES = [2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200] as const

/** What one tube shows, drawn into a circle, and once more where it is small there. */
export function circleOf({ tube, setup }: FieldView, field: Field, place: CirclePlace, room: InsetPlace): FieldCircle {
  const { frame, matter, neighbours } = field
  const { x, y, radiusPx } = place
  const { turn } = frame
  const pxPerArcmin = radiusPx / (30 * setup.trueFieldDeg)
  const paper: FieldPaper = {
    x,
    y,
    pxPerArcmin,
    isSmall: false,
    turn,
    circlePx: radiusPx,
    edgesPx: [x - radiusPx, x + radiusPx],
    hasSigns: false,
  }
  const inset = insetOf(matter, paper, room)
  const { turnedDeg, isMirrored } = tubeView(tube)
  return {
    x,
    y,
    radiusPx,
    trueFieldDeg: setup.trueFieldDeg,
    pxPerArcmin,
    northDeg: wrap360(clockwiseOn(turn, frame.poleDeg)),
    driftDeg: wrap360(clockwiseOn(turn, frame.poleDeg + 270)),
    isMirrored,
    turnedDeg,
    drawn: fieldsTogether(matter.draw({ ...paper, hasSigns: inset === null }), drawNeighbours(paper, neighbours)),
    inset,
  }
}

/** The thing once more, so many times larger; null where it is large enough or would hardly grow. */
function insetOf(matter: Matter, paper: FieldPaper, room: InsetPlace): FieldInset | null {
  const times = timesLarger(matter, paper.pxPerArcmin, room.half)
  if (times === null) return null
  const pxPerArcmin = times * paper.pxPerArcmin
  const [, halfHigh] = matter.reach
  const roomPx = Math.max(room.roomPx, matter.inset?.signsPx ?? 0)
  const [x, y] = [room.x, room.topPx + roomPx + halfHigh * pxPerArcmin]
  const edgesPx: FieldPaper['edgesPx'] = [x - room.sidePx, x + room.sidePx]
  const middle = { ...paper, pxPerArcmin, circlePx: null, edgesPx, hasSigns: true }
  const [offX, offY] = placeOn({ ...middle, x: 0, y: 0 }, ...matter.offArcmin)
  const drawn = matter.draw({ ...middle, x: x - offX, y: y - offY })
  return { times, x, y, pxPerArcmin, halfHighPx: halfHigh * pxPerArcmin, roomPx, drawn }
}

function timesLarger(
  { inset, reach: [wide, high], leastArcmin }: Matter,
  pxPerArcmin: number,
  [halfWide, halfHigh]: InsetPlace['half'],
): number | null {
  if (inset === null || leastArcmin * pxPerArcmin >= inset.belowPx) return null
  const most = Math.min(halfWide / wide, halfHigh / high, inset.mostPxPerArcmin)
  return TIMES.findLast((times) => times * pxPerArcmin <= most) ?? null
}

/** The circle with what is in it, cut at its rim, and its arrows. */
export function circleSvg(circle: FieldCircle, place: CirclePlace, clip: string, words: Words): readonly Svg[] {
  const { x, y, radiusPx, northDeg, driftDeg, drawn } = circle
  return [
    svgElement('clipPath', { id: clip }, svgElement('circle', { cx: x, cy: y, r: radiusPx })),
    svgElement('g', { 'clip-path': `url(#${clip})` }, ...drawn.svg),
    ...rimWith(place, [
      { clockwiseDeg: northDeg, word: words.say('field-drawing.north'), isBold: false },
      { clockwiseDeg: driftDeg, word: words.say('field-drawing.drift'), isBold: true },
    ]),
  ]
}

/** The thing once more with how many times larger it is, and how far down that reaches. */
export function insetSvg({ x, y, halfHighPx, roomPx, times, drawn }: FieldInset, words: Words) {
  const bottomPx = y + halfHighPx + roomPx + LETTER_PX - 2
  const text = words.say('field-drawing.enlarged', { times: words.number(times) })
  return { svg: [...drawn.svg, fieldText(x, bottomPx - 4, text, 'middle')], bottomPx }
}

const marksOf = ({ inset, drawn }: FieldCircle): readonly DrawnMark[] => (inset?.drawn ?? drawn).marks

const entriesOf = (circle: FieldCircle, words: Words): readonly string[] =>
  marksOf(circle).map(({ sign, name }) => words.say('field-drawing.legend', { sign, name }))

/** What the signs beside moons or features mean, in lines no longer than so many units. */
export const legendLines = (circle: FieldCircle, widePx: number, words: Words): readonly string[] =>
  entryLines(entriesOf(circle, words), widePx)

/** The same as one sentence; null where there is no sign. */
export function legendText(circle: FieldCircle, words: Words): string | null {
  const entries = entriesOf(circle, words)
  return entries.length === 0 ? null : words.say('field-drawing.legend-whole', { entries: entries.join(', ') })
}

/** The note that the thing is too small for its circle; null where it is not. */
export const tooSmallIn = (
  { matter: { leastArcmin, tooSmall } }: Field,
  { pxPerArcmin }: FieldCircle,
): string | null => (tooSmall !== null && leastArcmin * pxPerArcmin < tooSmall.belowPx ? tooSmall.code : null)
