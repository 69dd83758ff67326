import { clamp, radians } from '../sky/angles.ts'
import { seededRandom } from '../sky/random.ts'
import { svgElement } from './svg.ts'
import { boundsOf, clockwiseOn, type Drawn, type DrawnEllipse, dotsOf, type Paper, type Sketch } from './thing-paper.ts'

/** How bright a glow is at a share of the way from its middle to its edge, 1 at its brightest. */
export type Profile = (share: number) => number

const PX2_PER_DOT = 26
const PX2_PER_DOT_SMALL = 34
const [FEWEST, MOST, MOST_SMALL] = [40, 520, 120]
/** Steps of an even sequence in the plane (its two numbers are powers of the plastic number's inverse). */
const [STEP_X, STEP_Y] = [0.7548776662466927, 0.5698402909980532]
/** Enough to break up the lines that such a sequence shows. */
const JITTER = 0.05
const TRIES = 30

/** An ellipse of glow as dots that crowd where it is brighter, spread evenly and the same for the same seed. */
export function mistDots(ellipse: DrawnEllipse, profile: Profile, count: number, seed: number): [number, number][] {
  const random = seededRandom(seed)
  const [sine, cosine] = [Math.sin(radians(ellipse.angleDeg)), Math.cos(radians(ellipse.angleDeg))]
  const dots: [number, number][] = []
  for (let i = 1; i <= count * TRIES && dots.length < count; i++) {
    const share = Math.sqrt((i * STEP_X + JITTER * random()) % 1)
    if (profile(share) < random()) continue
    const turn = 2 * Math.PI * ((i * STEP_Y + JITTER * random()) % 1)
    const along = ellipse.halfMajorPx * share * Math.cos(turn)
    const across = ellipse.halfMinorPx * share * Math.sin(turn)
    dots.push([ellipse.x - along * sine + across * cosine, ellipse.y - along * cosine - across * sine])
  }
  return dots
}

/** How many dots an ellipse gets at a scale. */
function dotCount({ halfMajorPx, halfMinorPx }: DrawnEllipse, isSmall: boolean): number {
  const area = Math.PI * halfMajorPx * halfMinorPx
  return isSmall ? clamp(area / PX2_PER_DOT_SMALL, FEWEST / 2, MOST_SMALL) : clamp(area / PX2_PER_DOT, FEWEST, MOST)
}

interface Glow {
  readonly majorArcmin: number
  readonly minorArcmin: number
  /** From north through east; null where nobody wrote it down, and it is drawn lying. */
  readonly angleDeg: number | null
  readonly profile: Profile
  /** A bright heart inside it. */
  readonly core: { readonly widthArcmin: number } | null
  /** True for one whose edge an eye sees: its rim is a full line. */
  readonly hasEdge: boolean
  readonly seed: number
  readonly notes: readonly string[]
}

/** What has no angle written down is drawn from west to east. */
export const LYING_DEG = 90
const CORE_DOTS = 0.35

/** A glow as a sketch. */
export function glowSketch(glow: Glow): Sketch {
  const angleDeg = glow.angleDeg ?? LYING_DEG
  const [halfWidth, halfHeight] = boundsOf(glow.majorArcmin / 2, glow.minorArcmin / 2, angleDeg)
  const isLong = glow.majorArcmin > glow.minorArcmin
  return {
    widthArcmin: 2 * halfWidth,
    heightArcmin: 2 * halfHeight,
    draw: (paper) => drawGlow(glow, angleDeg, paper),
    size: isLong
      ? { code: 'object.size-by', arcmin: [glow.majorArcmin, glow.minorArcmin] }
      : { code: 'object.size-wide', arcmin: [glow.majorArcmin] },
    notes: [...glow.notes, ...(glow.angleDeg === null && isLong ? ['object.draw-lying'] : [])],
  }
}

function drawGlow(
  { majorArcmin, minorArcmin, profile, core, hasEdge, seed }: Glow,
  angleDeg: number,
  paper: Paper,
): Drawn {
  const ellipse = ellipseOn(paper, majorArcmin, minorArcmin, angleDeg)
  const count = dotCount(ellipse, paper.isSmall)
  const mist = mistDots(ellipse, profile, count, seed)
  const heart =
    core === null ? [] : coreDots(paper, core.widthArcmin, minorArcmin / majorArcmin, angleDeg, count * CORE_DOTS)
  const dotPx = paper.isSmall ? 2.4 : 2.6
  return { svg: [rimOf(ellipse, hasEdge), dotsOf([...mist, ...heart], dotPx)], ellipses: [ellipse], stars: [] }
}

const coreDots = (paper: Paper, widthArcmin: number, ratio: number, angleDeg: number, count: number) =>
  mistDots(ellipseOn(paper, widthArcmin, widthArcmin * Math.sqrt(ratio), angleDeg), () => 1, count, 1)

export const ellipseOn = (
  { x, y, pxPerArcmin, turn }: Paper,
  majorArcmin: number,
  minorArcmin: number,
  angleDeg: number,
): DrawnEllipse => ({
  x,
  y,
  halfMajorPx: (majorArcmin / 2) * pxPerArcmin,
  halfMinorPx: (minorArcmin / 2) * pxPerArcmin,
  angleDeg: turn === undefined ? angleDeg : -clockwiseOn(turn, angleDeg),
})

/** The rim of an ellipse: a full line for an edge that is seen, else dotted. */
export const rimOf = ({ x, y, halfMajorPx, halfMinorPx, angleDeg }: DrawnEllipse, hasEdge: boolean) =>
  svgElement('ellipse', {
    cx: x,
    cy: y,
    rx: halfMinorPx,
    ry: halfMajorPx,
    transform: `rotate(${Math.round(-10 * angleDeg) / 10} ${Math.round(10 * x) / 10} ${Math.round(10 * y) / 10})`,
    fill: 'none',
    stroke: 'currentColor',
    ...(hasEdge
      ? { 'stroke-width': 1.5 }
      : { 'stroke-width': 1, 'stroke-dasharray': '1 5', 'stroke-linecap': 'round' }),
  })
