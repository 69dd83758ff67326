import { radians } from '../sky/angles.ts'
import { seededRandom } from '../sky/random.ts'
import { starColour } from '../tours/star-colour.ts'
import type { ObjectHit, ShowObject } from '../tours/target.ts'
import { type Svg, svgElement } from './svg.ts'
import { ellipseOn, LYING_DEG, mistDots, rimOf } from './thing-mist.ts'
import { type Paper, placeOn, type Sketch, seedOf, together } from './thing-paper.ts'
import {
  drawStars,
  middleOf,
  NEIGHBOURS_DEG,
  radiusPx,
  type SkyStar,
  type StarBeside,
  starDot,
  starsBeside,
} from './thing-stars.ts'

/** So many stars of the star table tell a cluster's shape by themselves; with fewer, the rest is told by dots. */
export const ENOUGH_IN_PLACE = 12
const FEWEST_IN_PLACE = 3
const MOST_SCATTERED = 80
const FAINTEST_V = 8
const SPREAD_MAG = 3.5
const SCATTERED_SHARE = 0.6
export const BETWEEN_SHARE = 0.45

/** A cluster's field as the star table has it, and as many dots as are said to belong to it where that has few; those are not in place. */
export function clusterSketch(thing: ShowObject, stars: readonly SkyStar[]): Sketch | null {
  const [middle, { majorArcmin }] = [middleOf(thing), thing]
  if (middle === null || majorArcmin === null) return null
  const minorArcmin = thing.minorArcmin ?? majorArcmin
  const inPlace = stars.length >= FEWEST_IN_PLACE ? starsBeside(middle, stars) : []
  const dots = inPlace.length >= ENOUGH_IN_PLACE ? [] : scattered(thing, majorArcmin, minorArcmin, inPlace.length)
  const faintest = Math.max(...dots.map(({ magnitude }) => magnitude))
  const isMixed = inPlace.length > 0 && dots.length > 0
  return {
    widthArcmin: majorArcmin,
    heightArcmin: minorArcmin,
    size: { code: 'object.size-wide', arcmin: [majorArcmin] },
    draw(paper) {
      const edge = ellipseOn(paper, majorArcmin, minorArcmin, LYING_DEG)
      const small = drawStars(paper, dots, faintest, isMixed ? BETWEEN_SHARE : SCATTERED_SHARE)
      const drawn = together(small, drawStars(paper, inPlace, FAINTEST_V))
      return { ...drawn, svg: [rimOf(edge, false), ...drawn.svg], ellipses: [edge] }
    },
    notes: [isMixed ? 'object.draw-mixed' : dots.length > 0 ? 'object.draw-scattered' : 'object.draw-field'],
  }
}

/** As many stars as are said to belong to a cluster beside those that are drawn already; not in their places. */
export function scattered(
  thing: ShowObject,
  majorArcmin: number,
  minorArcmin: number,
  drawnAlready: number,
): StarBeside[] {
  const { key, starCount, brightestStarMag } = thing
  const count = Math.max(0, Math.min(MOST_SCATTERED, (starCount ?? MOST_SCATTERED / 2) - drawnAlready))
  const brightest = drawnAlready > 0 ? FAINTEST_V : (brightestStarMag ?? FAINTEST_V)
  const random = seededRandom(seedOf(key))
  const field = ellipseOn({ x: 0, y: 0, pxPerArcmin: 1, isSmall: false }, majorArcmin, minorArcmin, LYING_DEG)
  const places = mistDots(field, (share) => Math.exp(-2 * share ** 2), count, seedOf(key))
  return places.map(([x, y], i) => ({
    eastArcmin: -x,
    northArcmin: -y,
    magnitude: brightest + (i === 0 ? 0 : SPREAD_MAG * random() ** 0.45),
  }))
}

const NEIGHBOURHOOD_ARCMIN = 2 * 60 * NEIGHBOURS_DEG
const SELF_ARCMIN = 3

/** Where a word beside the star of the middle may stand: how far it is moved, and where its middle then lies in arcminutes east and north. */
const SIDES = [
  { offPx: [16, 6], eastArcmin: -65, northArcmin: 0 },
  { offPx: [-16, 6], eastArcmin: 65, northArcmin: 0 },
  { offPx: [0, -18], eastArcmin: 0, northArcmin: 29 },
  { offPx: [0, 32], eastArcmin: 0, northArcmin: -31 },
] as const
/** A word is so many times as long as it is high. */
const WORD_SHAPE = 2.6

/** The place for a word that is farthest from every neighbour; of equals the first. */
function freeSide(others: readonly StarBeside[]): readonly [number, number] {
  const room = ({ eastArcmin, northArcmin }: (typeof SIDES)[number]): number =>
    Math.min(
      ...others.map((star) => Math.hypot((star.eastArcmin - eastArcmin) / WORD_SHAPE, star.northArcmin - northArcmin)),
    )
  const [first] = SIDES.toSorted((one, other) => room(other) - room(one))
  return first?.offPx ?? SIDES[0].offPx
}

/** A single star among its neighbours. */
export function neighbourhood(
  thing: ShowObject | ObjectHit,
  stars: readonly SkyStar[],
  bv: number | null,
): Sketch | null {
  const middle = middleOf(thing)
  if (middle === null) return null
  const self: StarBeside = { eastArcmin: 0, northArcmin: 0, magnitude: thing.magnitude ?? FAINTEST_V }
  const colour = starColour(bv)
  const others = starsBeside(middle, stars).filter(
    (star) => Math.hypot(star.eastArcmin, star.northArcmin) > SELF_ARCMIN,
  )
  return {
    widthArcmin: NEIGHBOURHOOD_ARCMIN,
    heightArcmin: NEIGHBOURHOOD_ARCMIN,
    size: { code: 'object.size-field', arcmin: [NEIGHBOURHOOD_ARCMIN] },
    labels:
      colour === null
        ? []
        : [{ eastArcmin: 0, northArcmin: 0, offPx: freeSide(others), text: { code: `colour.${colour}` } }],
    draw: (paper) => drawStars(paper, [self, ...others], Math.max(FAINTEST_V, self.magnitude)),
    notes: ['object.draw-point'],
  }
}

const LABEL_OFF_PX = 20

/** From a star away from its partner, on paper where east is left. */
const awayFrom = (turn: number, side: 1 | -1): readonly [number, number] => [
  -side * LABEL_OFF_PX * Math.sin(turn),
  -side * (LABEL_OFF_PX + 6) * Math.cos(turn) + 6,
]

/** Two dots at their distance and angle. */
export function doubleSketch({
  separationArcsec,
  pairAngleDeg,
  componentMagnitudes,
  colours,
}: ShowObject): Sketch | null {
  if (separationArcsec === null || componentMagnitudes === null) return null
  const apartArcmin = separationArcsec / 60
  const turn = radians(pairAngleDeg ?? 90)
  const half = { eastArcmin: (apartArcmin / 2) * Math.sin(turn), northArcmin: (apartArcmin / 2) * Math.cos(turn) }
  const [first, second] = componentMagnitudes
  return {
    widthArcmin: 2 * apartArcmin,
    heightArcmin: 1.25 * apartArcmin,
    size: { code: 'object.size-apart', arcmin: [apartArcmin] },
    labels: (colours ?? []).map((text, i) => ({
      eastArcmin: (i === 0 ? -1 : 1) * half.eastArcmin,
      northArcmin: (i === 0 ? -1 : 1) * half.northArcmin,
      offPx: awayFrom(turn, i === 0 ? -1 : 1),
      text,
    })),
    draw(paper) {
      const stars = [-1, 1].map((side) => {
        const [x, y] = placeOn(paper, side * half.eastArcmin, side * half.northArcmin)
        const magnitude = side < 0 ? first : second
        return { x, y, radiusPx: 1.3 * radiusPx(magnitude, first + 6, paper.isSmall), magnitude }
      })
      return { svg: stars.map(starDot), ellipses: [], stars }
    },
    notes: [pairAngleDeg === null ? 'object.draw-double-lying' : 'object.draw-double'],
  }
}

const SHOWER_ARCMIN = 44 * 60
const SHOWER_V = 3.7
const METEORS = 16

/** The stars around a radiant, and meteors that all fly away from it. */
export function showerSketch(thing: ShowObject, stars: readonly SkyStar[]): Sketch | null {
  const middle = middleOf(thing)
  if (middle === null) return null
  const around = starsBeside(middle, stars)
  return {
    widthArcmin: SHOWER_ARCMIN,
    heightArcmin: SHOWER_ARCMIN,
    size: { code: 'object.size-field', arcmin: [SHOWER_ARCMIN] },
    draw(paper) {
      const drawn = drawStars(paper, around, SHOWER_V)
      return { ...drawn, svg: [...meteors(paper, seedOf(thing.key)), ...drawn.svg] }
    },
    notes: ['object.draw-shower'],
  }
}

function meteors(paper: Paper, seed: number): Svg[] {
  const random = seededRandom(seed)
  return Array.from({ length: METEORS }, (_, i) => {
    const turn = (2 * Math.PI * (i + 0.7 * random())) / METEORS
    const from = SHOWER_ARCMIN * (0.12 + 0.22 * random())
    const to = from * (1.25 + 0.25 * random())
    const [x1, y1] = placeOn(paper, from * Math.sin(turn), from * Math.cos(turn))
    const [x2, y2] = placeOn(paper, to * Math.sin(turn), to * Math.cos(turn))
    return svgElement('line', { x1, y1, x2, y2, stroke: 'currentColor', 'stroke-width': paper.isSmall ? 1.2 : 2 })
  })
}
