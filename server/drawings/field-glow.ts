import { clamp, radians } from '../sky/angles.ts'
import { seededRandom } from '../sky/random.ts'
import type { ShowObject } from '../tours/target.ts'
import {
  AS_A_DOT,
  drawnField,
  type FieldDrawn,
  type FieldPaper,
  type Frame,
  isInCircle,
  LEAST_DOT_PX,
  type Matter,
} from './field-paper.ts'
import { ellipseOn, LYING_DEG, rimOf } from './thing-mist.ts'
import { boundsOf, clockwiseOn, type DrawnEllipse, dotsOf, seedOf } from './thing-paper.ts'
import { profileOf } from './thing-sketch.ts'
import { starDot } from './thing-stars.ts'

/** So much paper for each dot where a glow is brightest, in squares of the dots' width. */
const DOT_AREAS = 1.8
const [STEP_X, STEP_Y, JITTER] = [0.7548776662466927, 0.5698402909980532, 0.05]
/** An eye tells bright from dim less than light does. */
const EYE = 0.5
const SOLID_RIM_PX = 8
const INSET_BELOW_PX = 40
const INSET_PX_PER_ARCMIN = 240

/** A galaxy, nebula, globular cluster or comet as dots; null where nobody wrote down how large it is. */
export function glowMatter(thing: ShowObject, { turn, poleDeg }: Frame): Matter | null {
  const { majorArcmin, kind } = thing
  if (majorArcmin === null) return null
  const minorArcmin = thing.minorArcmin ?? majorArcmin
  // The catalogue's angles, RC3's and others from memory in whole degrees, are taken to be counted from the north of
  // J2000, as the paper's turn is; what has none lies from west to east of the date.
  const angleDeg = thing.angleDeg ?? LYING_DEG + poleDeg
  const isLong = majorArcmin > minorArcmin
  return {
    draw: (paper) => drawGlow(thing, ellipseOn(paper, majorArcmin, minorArcmin, angleDeg), paper),
    reach: boundsOf(majorArcmin / 2, minorArcmin / 2, clockwiseOn(turn, angleDeg)),
    offArcmin: [0, 0],
    leastArcmin: majorArcmin,
    tooSmall: AS_A_DOT,
    inset: { belowPx: INSET_BELOW_PX, mostPxPerArcmin: INSET_PX_PER_ARCMIN, signsPx: 0 },
    notes: [
      { code: kind === 'globular' ? 'object.draw-globular' : 'object.draw-mist' },
      ...(thing.angleDeg === null && isLong ? [{ code: 'field-drawing.note-lying' }] : []),
    ],
  }
}

function drawGlow(thing: ShowObject, ellipse: DrawnEllipse, paper: FieldPaper): FieldDrawn {
  const { x, y, halfMajorPx, halfMinorPx } = ellipse
  if (halfMajorPx < LEAST_DOT_PX) {
    const dot = { x, y, radiusPx: LEAST_DOT_PX, magnitude: thing.magnitude ?? 0 }
    return drawnField([starDot(dot)], { ellipses: [ellipse] })
  }
  const dotPx = clamp(halfMinorPx / 4, 1.1, 2.2)
  const hasEdge = thing.kind === 'planetary' || halfMajorPx < SOLID_RIM_PX
  const rim = halfMajorPx > 4 * (paper.circlePx ?? Number.POSITIVE_INFINITY) ? [] : [rimOf(ellipse, hasEdge)]
  return drawnField([...rim, dotsOf(glowDots(thing, ellipse, paper, dotPx), dotPx)], { ellipses: [ellipse] })
}

/** Dots spread evenly over what is seen of an ellipse, kept the more often the brighter it is there. */
function glowDots(thing: ShowObject, ellipse: DrawnEllipse, paper: FieldPaper, dotPx: number): [number, number][] {
  const light = lightIn(thing, ellipse)
  const [wide, high] = boundsOf(ellipse.halfMajorPx, ellipse.halfMinorPx, ellipse.angleDeg).map((half) =>
    Math.min(half, paper.circlePx ?? half),
  )
  const [halfX, halfY] = [wide ?? 0, high ?? 0]
  const random = seededRandom(seedOf(thing.key))
  const count = (4 * halfX * halfY) / (DOT_AREAS * dotPx ** 2)
  const dots: [number, number][] = []
  for (let i = 1; i <= count; i++) {
    const dx = halfX * (2 * ((i * STEP_X + JITTER * random()) % 1) - 1)
    const dy = halfY * (2 * ((i * STEP_Y + JITTER * random()) % 1) - 1)
    const isKept = random() < light(dx, dy)
    if (isKept && isInCircle(paper, ellipse.x + dx, ellipse.y + dy, dotPx)) dots.push([ellipse.x + dx, ellipse.y + dy])
  }
  return dots
}

/** How bright a glow is so far right of its middle and below it, 0 to 1. */
function lightIn(thing: ShowObject, { halfMajorPx, halfMinorPx, angleDeg }: DrawnEllipse) {
  const profile = profileOf(thing)
  const [sine, cosine] = [Math.sin(radians(angleDeg)), Math.cos(radians(angleDeg))]
  const coreShare = thing.coreArcmin === null || thing.majorArcmin === null ? 0 : thing.coreArcmin / thing.majorArcmin
  return (dx: number, dy: number): number => {
    const share = Math.hypot((dx * sine + dy * cosine) / halfMajorPx, (dx * cosine - dy * sine) / halfMinorPx)
    if (share > 1) return 0
    return share < coreShare ? 1 : profile(share) ** EYE
  }
}
