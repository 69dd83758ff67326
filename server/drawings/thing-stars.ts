import { clamp, radians, separationDeg } from '../sky/angles.ts'
import { directionDeg } from '../sky/direction.ts'
import type { ObjectHit, ShowObject } from '../tours/target.ts'
import { type Svg, svgElement } from './svg.ts'
import { type Drawn, type DrawnStar, type Paper, placeOn } from './thing-paper.ts'

/** A star of the star table: its place in degrees (J2000) and its V magnitude. */
export interface SkyStar {
  readonly raDeg: number
  readonly decDeg: number
  readonly magnitude: number
}

/** Which stars of the star table belong into the picture of a thing: those named, or all around a place. */
export type StarsWanted =
  | { readonly hips: readonly number[] }
  | { readonly raDeg: number; readonly decDeg: number; readonly radiusDeg: number; readonly limitV: number }

/** Where stars of the star table are looked up, in a database for one. */
interface StarSource<Star extends SkyStar> {
  readonly ofHips: (hips: readonly number[]) => readonly Star[]
  readonly around: (field: Extract<StarsWanted, { raDeg: number }>) => readonly Star[]
}

/** The stars that were asked for. */
export function starsIn<Star extends SkyStar>(source: StarSource<Star>, wanted: StarsWanted | null): readonly Star[] {
  if (wanted === null) return []
  return 'hips' in wanted ? source.ofHips(wanted.hips) : source.around(wanted)
}

const FAINTEST_V = 8
const NEIGHBOURS_V = 7
/** How far around a single star its neighbours are drawn. */
export const NEIGHBOURS_DEG = 2.5
const SHOWER_DEG = 22
const SHOWER_V = 3.7
const BARE_EYE_V = 4.3

/** The stars that a picture asks for; null where it needs none. */
export function starsWanted(thing: ShowObject | ObjectHit): StarsWanted | null {
  if ('hips' in thing && thing.hips.length > 0) return { hips: thing.hips }
  const { kind, raDeg, decDeg } = thing
  if (raDeg === null || decDeg === null) return null
  const around = (radiusDeg: number, limitV: number) => ({ raDeg, decDeg, radiusDeg, limitV })
  if (kind === 'star' || kind === 'red-star') return around(NEIGHBOURS_DEG, NEIGHBOURS_V)
  if (kind === 'meteor-shower') return around(SHOWER_DEG, SHOWER_V)
  if (!('hips' in thing)) return null
  if (kind === 'open-cluster') return around((thing.majorArcmin ?? 0) / 120, FAINTEST_V)
  return kind === 'bare-eye' && thing.fieldDeg !== null ? around(thing.fieldDeg / 2, BARE_EYE_V) : null
}

/** A star beside the middle of the picture, in arcminutes. */
export interface StarBeside {
  readonly eastArcmin: number
  readonly northArcmin: number
  readonly magnitude: number
}

export type Middle = Pick<SkyStar, 'raDeg' | 'decDeg'>

/** The place of a thing, or null where it has none. */
export const middleOf = ({ raDeg, decDeg }: Pick<ObjectHit, 'raDeg' | 'decDeg'>): Middle | null =>
  raDeg === null || decDeg === null ? null : { raDeg, decDeg }

/** Stars as they lie around a place, their distances and directions kept. */
export const starsBeside = (middle: Middle, stars: readonly SkyStar[]): readonly StarBeside[] =>
  stars.map((star) => {
    const apartArcmin = 60 * separationDeg(middle.raDeg, middle.decDeg, star.raDeg, star.decDeg)
    const turn = radians(directionDeg(middle, star))
    return {
      eastArcmin: apartArcmin * Math.sin(turn),
      northArcmin: apartArcmin * Math.cos(turn),
      magnitude: star.magnitude,
    }
  })

const [LEAST_PX, MOST_PX, PX_PER_MAG] = [1.8, 9, 1.15]
const SMALL = 0.62

/** Radius of a star's dot: larger for a brighter one, least for one of the faintest that are drawn. */
export const radiusPx = (magnitude: number, faintestMag: number, isSmall: boolean): number =>
  (isSmall ? SMALL : 1) * clamp(LEAST_PX + PX_PER_MAG * (faintestMag - magnitude), LEAST_PX, MOST_PX)

/** Stars in their places; none fainter than `faintestMag`, all dots so much larger or smaller than usual. */
export function drawStars(paper: Paper, stars: readonly StarBeside[], faintestMag: number, sizeShare = 1): Drawn {
  const drawn: DrawnStar[] = stars.map(({ eastArcmin, northArcmin, magnitude }) => {
    const [x, y] = placeOn(paper, eastArcmin, northArcmin)
    return { x, y, radiusPx: sizeShare * radiusPx(magnitude, faintestMag, paper.isSmall), magnitude }
  })
  return { svg: drawn.map(starDot), ellipses: [], stars: drawn }
}

export const starDot = ({ x, y, radiusPx: r }: DrawnStar): Svg =>
  svgElement('circle', { cx: x, cy: y, r, fill: 'currentColor' })
