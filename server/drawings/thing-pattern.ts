import { clamp, degrees } from '../sky/angles.ts'
import { type Svg, svgElement } from './svg.ts'
import { type Paper, placeOn, type Sketch } from './thing-paper.ts'
import { drawStars, type Middle, type SkyStar, type StarBeside, starsBeside } from './thing-stars.ts'

/** The few stars of a pattern are drawn larger than the many of a field. */
const MANY = 12
const MANY_MAG = 1
const FEW_MAG = 2.5

/** A pattern of stars, joined by thin lines that only help the eye. */
export function patternSketch(
  middle: Middle,
  found: readonly SkyStar[],
  isJoined: boolean,
  note: string,
): Sketch | null {
  if (found.length === 0) return null
  const stars = centred(starsBeside(middle, found))
  const faintest = Math.max(...stars.map(({ magnitude }) => magnitude)) + (stars.length > MANY ? MANY_MAG : FEW_MAG)
  return {
    widthArcmin: 2 * Math.max(...stars.map(({ eastArcmin }) => eastArcmin)),
    heightArcmin: 2 * Math.max(...stars.map(({ northArcmin }) => northArcmin)),
    size: { code: 'object.size-ends', arcmin: [longestArcmin(stars)] },
    draw(paper) {
      const drawn = drawStars(paper, stars, faintest)
      return { ...drawn, svg: [...(isJoined ? linesOf(paper, stars) : []), ...drawn.svg] }
    },
    notes: [note, ...(isJoined ? ['object.draw-lines'] : [])],
  }
}

/** The same stars around the middle of their extent. */
function centred(stars: readonly StarBeside[]): readonly StarBeside[] {
  const middleOf = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2
  const east = middleOf(stars.map(({ eastArcmin }) => eastArcmin))
  const north = middleOf(stars.map(({ northArcmin }) => northArcmin))
  return stars.map(({ eastArcmin, northArcmin, magnitude }) => ({
    eastArcmin: eastArcmin - east,
    northArcmin: northArcmin - north,
    magnitude,
  }))
}

function linesOf(paper: Paper, stars: readonly StarBeside[]): Svg[] {
  return joinedPairs(stars).flatMap(([from, to]) => {
    const [one, other] = [stars[from], stars[to]]
    if (!one || !other) return []
    const [x1, y1] = placeOn(paper, one.eastArcmin, one.northArcmin)
    const [x2, y2] = placeOn(paper, other.eastArcmin, other.northArcmin)
    return [
      svgElement('line', { x1, y1, x2, y2, stroke: 'currentColor', 'stroke-width': 1, 'stroke-dasharray': '6 4' }),
    ]
  })
}

const BLUNT_DEG = 85 // a square has its four sides and no diagonal

/**
 * The lines of a pattern as pairs of places in the list: the shortest that hold it together, and what closes it to a ring:
 * a line between two of its ends that no third star stands between, since seen from every other the two are less than a
 * right angle apart.
 */
export function joinedPairs(stars: readonly StarBeside[]): readonly (readonly [number, number])[] {
  const pairs = shortestPairs(stars)
  if (pairs.length < 2) return pairs
  const ends = [...stars.keys()].filter((star) => pairs.filter((pair) => pair.includes(star)).length === 1)
  const closing = ends.flatMap((a, i) => ends.slice(i + 1).map((b): [number, number] => [a, b]))
  return [...pairs, ...closing.filter(([a, b]) => isFree(stars, a, b))]
}

const isFree = (stars: readonly StarBeside[], a: number, b: number): boolean =>
  stars.every((_, c) => c === a || c === b || angleAtDeg(stars, c, a, b) < BLUNT_DEG)

function apartArcmin(stars: readonly StarBeside[], a: number, b: number): number {
  const [one, other] = [stars[a], stars[b]]
  return one && other ? Math.hypot(one.eastArcmin - other.eastArcmin, one.northArcmin - other.northArcmin) : 0
}

/** The way from one end to the other. */
const longestArcmin = (stars: readonly StarBeside[]): number =>
  Math.max(0, ...stars.flatMap((_, a) => stars.map((__, b) => apartArcmin(stars, a, b))))

/** The angle at one star between two others; 180 beside a star in the same place. */
function angleAtDeg(stars: readonly StarBeside[], at: number, a: number, b: number): number {
  const [toA, toB, across] = [apartArcmin(stars, at, a), apartArcmin(stars, at, b), apartArcmin(stars, a, b)]
  if (toA === 0 || toB === 0) return 180
  return degrees(Math.acos(clamp((toA ** 2 + toB ** 2 - across ** 2) / (2 * toA * toB), -1, 1)))
}

/** Each star is joined to the nearest of those that were joined before. */
function shortestPairs(stars: readonly StarBeside[]): readonly (readonly [number, number])[] {
  const joined = [0]
  const left = new Set(stars.keys())
  left.delete(0)
  const pairs: [number, number][] = []
  while (left.size > 0) {
    const [best] = [...left]
      .flatMap((to) => joined.map((from): [number, number] => [from, to]))
      .sort((one, other) => apartArcmin(stars, ...one) - apartArcmin(stars, ...other))
    if (best === undefined) break
    pairs.push(best)
    joined.push(best[1])
    left.delete(best[1])
  }
  return pairs
}
