import { radians } from '../sky/angles.ts'
import type { ShowObject } from '../tours/target.ts'
import { fieldText, OVER_DOTS, textPx } from './field-letters.ts'
import {
  drawnField,
  type FieldDrawn,
  type FieldPaper,
  type Frame,
  isInCircle,
  LEAST_DOT_PX,
  type Matter,
} from './field-paper.ts'
import type { Svg } from './svg.ts'
import { BETWEEN_SHARE, ENOUGH_IN_PLACE, scattered } from './thing-fields.ts'
import { ellipseOn, LYING_DEG, rimOf } from './thing-mist.ts'
import { boundsOf, clockwiseOn, placeOn } from './thing-paper.ts'
import { drawStars, type Middle, radiusPx, type SkyStar, type StarBeside, starDot, starsBeside } from './thing-stars.ts'

export const FIELD_FAINTEST_V = 8
/** Dots of a field are smaller than those of a sketch: there are more of them. */
const FIELD_SHARE = 0.6
const OWN_ARCMIN = 0.5

/** The stars of the star table around the middle of a field but the thing itself. */
export function neighboursOf(thing: ShowObject, middle: Middle, stars: readonly SkyStar[]): readonly StarBeside[] {
  const isStar = thing.kind === 'double' || thing.kind === 'star' || thing.kind === 'red-star'
  const ownArcmin = isStar ? OWN_ARCMIN + (thing.separationArcsec ?? 0) / 60 : 0
  const around = starsBeside(middle, stars)
  return isStar ? around.filter((star) => Math.hypot(star.eastArcmin, star.northArcmin) > ownArcmin) : around
}

/** The stars of a field in their places, none beyond its circle. */
export function drawNeighbours(paper: FieldPaper, stars: readonly StarBeside[]): FieldDrawn {
  const seen = stars.filter(({ eastArcmin, northArcmin }) =>
    isInCircle(paper, ...placeOn(paper, eastArcmin, northArcmin), 5),
  )
  return { ...drawnField([]), ...drawStars(paper, seen, FIELD_FAINTEST_V, FIELD_SHARE) }
}

/** A single star as a dot, larger for a brighter one. */
export const starMatter = (thing: ShowObject): Matter => ({
  draw(paper) {
    const magnitude = thing.magnitude ?? FIELD_FAINTEST_V
    const size = FIELD_SHARE * radiusPx(magnitude, FIELD_FAINTEST_V, false)
    const star = { x: paper.x, y: paper.y, radiusPx: size, magnitude }
    return drawnField([starDot(star)], { stars: [star] })
  },
  reach: [0, 0],
  offArcmin: [0, 0],
  leastArcmin: Number.POSITIVE_INFINITY,
  tooSmall: null,
  inset: null,
  notes: [{ code: 'field-drawing.note-star' }],
})

/** A cluster's rim, and as many dots as the star table lacks; its bright stars are among those of the field. */
export function clusterMatter(
  thing: ShowObject,
  around: readonly StarBeside[],
  { turn, poleDeg }: Frame,
): Matter | null {
  const { majorArcmin } = thing
  if (majorArcmin === null) return null
  const minorArcmin = thing.minorArcmin ?? majorArcmin
  const inPlace = around.filter((star) => Math.hypot(star.eastArcmin, star.northArcmin) <= majorArcmin / 2).length
  const dots = inPlace >= ENOUGH_IN_PLACE ? [] : scattered(thing, majorArcmin, minorArcmin, inPlace)
  const faintest = Math.max(...dots.map(({ magnitude }) => magnitude))
  return {
    draw(paper) {
      const edge = ellipseOn(paper, majorArcmin, minorArcmin, LYING_DEG + poleDeg)
      const seen = dots.filter(({ eastArcmin, northArcmin }) =>
        isInCircle(paper, ...placeOn(paper, eastArcmin, northArcmin), 2),
      )
      const drawn = drawStars(paper, seen, faintest, BETWEEN_SHARE)
      return { ...drawnField([rimOf(edge, false), ...drawn.svg], { ellipses: [edge] }), stars: drawn.stars }
    },
    reach: boundsOf(majorArcmin / 2, minorArcmin / 2, clockwiseOn(turn, LYING_DEG)),
    offArcmin: [0, 0],
    leastArcmin: majorArcmin,
    tooSmall: null,
    inset: null,
    notes: dots.length === 0 ? [] : [{ code: 'field-drawing.note-scattered' }],
  }
}

/** A pair's distance on paper, the radii of its two dots and where the second lies from the first. */
interface Pair {
  readonly magnitudes: readonly [number, number]
  readonly eastArcmin: number
  readonly northArcmin: number
  readonly colours: readonly [string, string] | null
}

const INSET_BELOW_PX = 24
const CLOSE_PX = 5
const APART_PX = 100

/** Two stars at their distance and angle, the brighter in the middle; its angle is counted from the north of its own year, which is nearly that of the date. */
export function doubleMatter(thing: ShowObject, { turn, poleDeg }: Frame): Matter | null {
  const { separationArcsec, componentMagnitudes, pairAngleDeg, colours } = thing
  if (separationArcsec === null || componentMagnitudes === null) return null
  const apartArcmin = separationArcsec / 60
  const angleDeg = (pairAngleDeg ?? LYING_DEG) + poleDeg
  const [eastArcmin, northArcmin] = [
    apartArcmin * Math.sin(radians(angleDeg)),
    apartArcmin * Math.cos(radians(angleDeg)),
  ]
  const pair: Pair = { magnitudes: componentMagnitudes, eastArcmin, northArcmin, colours }
  return {
    draw: (paper) => drawPair(pair, paper),
    reach: boundsOf(apartArcmin / 2, 0, clockwiseOn(turn, angleDeg)),
    offArcmin: [eastArcmin / 2, northArcmin / 2],
    leastArcmin: apartArcmin,
    tooSmall: { belowPx: CLOSE_PX, code: 'field-drawing.note-pair-close' },
    inset: { belowPx: INSET_BELOW_PX, mostPxPerArcmin: APART_PX / apartArcmin, signsPx: 0 },
    notes: [{ code: pairAngleDeg === null ? 'field-drawing.note-pair-lying' : 'field-drawing.note-pair' }],
  }
}

/** The dots of a pair leave paper between them where their distance allows. */
const TOUCH_SHARE = 0.75
const PAIR_SPAN_MAG = 6
const LABELS_FROM_PX = 40
/** Dots that would have to shrink below this share of their usual size to stay apart are drawn as they are. */
const LEAST_SHARE = 0.45

function drawPair({ magnitudes, eastArcmin, northArcmin, colours }: Pair, paper: FieldPaper): FieldDrawn {
  const [first] = magnitudes
  const usual = magnitudes.map((it) => FIELD_SHARE * 1.3 * radiusPx(it, first + PAIR_SPAN_MAG, false))
  const apartPx = Math.hypot(eastArcmin, northArcmin) * paper.pxPerArcmin
  const fitting = Math.min(1, (TOUCH_SHARE * apartPx) / usual.reduce((sum, it) => sum + it, 0))
  const share = apartPx < CLOSE_PX || fitting < LEAST_SHARE ? 1 : fitting
  const places = [placeOn(paper, 0, 0), placeOn(paper, eastArcmin, northArcmin)]
  const stars = places.map(([x, y], i) => ({
    x,
    y,
    radiusPx: Math.max(LEAST_DOT_PX, share * (usual[i] ?? 0)),
    magnitude: magnitudes[i] ?? first,
  }))
  const [one, other] = places
  const words =
    colours === null || apartPx < LABELS_FROM_PX || !one || !other
      ? []
      : colourWords(colours, one, other, paper.edgesPx)
  return drawnField([...stars.map(starDot), ...words], { stars })
}

const BESIDE_PX = 14

/** The colours of the two stars: beyond each of them, or to their right where one stands above the other; none where there is no room. */
function colourWords(
  colours: readonly [string, string],
  one: [number, number],
  other: [number, number],
  [leftPx, rightPx]: FieldPaper['edgesPx'],
): Svg[] {
  const isRow = Math.abs(other[0] - one[0]) > Math.abs(other[1] - one[1])
  const placed = colours.map((colour, i) => {
    const [[x, y], [otherX]] = i === 0 ? [one, other] : [other, one]
    const isLeft = isRow && x < otherX
    return { colour, isLeft, x: x + (isLeft ? -BESIDE_PX : BESIDE_PX), y: y + 7 }
  })
  const hasRoom = placed.every(({ colour, isLeft, x }) =>
    isLeft ? x - textPx(colour) >= leftPx : x + textPx(colour) <= rightPx,
  )
  if (!hasRoom) return []
  return placed.map(({ colour, isLeft, x, y }) => fieldText(x, y, colour, isLeft ? 'end' : 'start', OVER_DOTS))
}
