import { wrap180 } from '../sky/angles.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import { type AlignmentNight, type AlignmentStar, alignmentStars, type BrightStar } from './alignment-stars.ts'
import { meanErrorFactor } from './pointing-error.ts'
import { apartDeg } from './sky-at.ts'

export type { AlignmentStar, BrightStar } from './alignment-stars.ts'

/** Two stars to set a driven mount up on, the brighter first. */
export interface AlignmentPair {
  readonly stars: readonly [AlignmentStar, AlignmentStar]
  readonly separationDeg: number
  /** How far apart they stand along the horizon, 0 to 180. */
  readonly azimuthApartDeg: number
  /** How many times one star's centring error the mount misses by, as a mean over tonight's targets. */
  readonly meanErrorFactor: number
}

export interface AlignmentQuestion {
  /** Bright stars with names, down to V 3. */
  readonly stars: readonly BrightStar[]
  readonly night: AlignmentNight
  readonly at: Date
  /** Where tonight's targets will stand when they are shown; without any the whole sky counts. */
  readonly targets: readonly Horizontal[]
}

// Common practice, no source.
const COMFORTABLE = { lowestDeg: 20, highestDeg: 65 } as const
const FIRST_MAGNITUDE = 1.5
const APART_DEG = 90
const NEARLY_APART_DEG = 45
const OPPOSITE_DEG = 160
/** Outside of this the variance of the attitude is 1.8 times the least or more. */
const SEPARATION = { leastDeg: 45, mostDeg: 135 } as const
const MOST_PAIRS = 3
const MOST_USES = 2

/**
 * At most three pairs to align on, best first: by how well the rules of height and azimuth are kept, then by how
 * unmistakable the two are (of the first magnitude, alone, both), then by the pointing error that is left. No star is in
 * all three. Empty when fewer than two stars can be centred, as by day.
 */
export function alignmentPairs({ stars, night, at, targets }: AlignmentQuestion): readonly AlignmentPair[] {
  const able = alignmentStars(stars, night, at).sort((a, b) => a.magnitude - b.magnitude)
  const pairs = able.flatMap((first, i) => able.slice(i + 1).map((second) => pairOf(first, second, targets)))
  return fewOf(
    pairs
      .map(ranked)
      .sort(byRank)
      .map(({ pair }) => pair),
  )
}

function pairOf(first: AlignmentStar, second: AlignmentStar, targets: readonly Horizontal[]): AlignmentPair {
  return {
    stars: [first, second],
    separationDeg: apartDeg(first.direction, second.direction),
    azimuthApartDeg: Math.abs(wrap180(first.direction.azimuthDeg - second.direction.azimuthDeg)),
    meanErrorFactor: meanErrorFactor(first.direction, second.direction, targets),
  }
}

const ranked = (pair: AlignmentPair) => ({
  pair,
  breach: breachOf(pair),
  // 0 where the azimuths are as they should be.
  shortDeg: Math.max(0, APART_DEG - pair.azimuthApartDeg, pair.azimuthApartDeg - OPPOSITE_DEG),
  unmistakable: gradeOf(pair.stars[0]) + gradeOf(pair.stars[1]),
})

const gradeOf = ({ magnitude, isAlone }: AlignmentStar): number =>
  Number(magnitude <= FIRST_MAGNITUDE) + Number(isAlone)

type Ranked = ReturnType<typeof ranked>

const byRank = (a: Ranked, b: Ranked): number =>
  a.breach - b.breach ||
  a.shortDeg - b.shortDeg ||
  b.unmistakable - a.unmistakable ||
  a.pair.meanErrorFactor - b.pair.meanErrorFactor

/** Which rule a pair breaks: 0 none, 1 too near or too far on the sky, 2 a height, 3 less than 90 degrees of azimuth, 4 less than 45 or opposite. */
function breachOf({ stars, separationDeg, azimuthApartDeg }: AlignmentPair): number {
  if (azimuthApartDeg < NEARLY_APART_DEG || azimuthApartDeg > OPPOSITE_DEG) return 4
  if (azimuthApartDeg < APART_DEG) return 3
  if (!stars.every(({ direction }) => isComfortable(direction))) return 2
  return separationDeg < SEPARATION.leastDeg || separationDeg > SEPARATION.mostDeg ? 1 : 0
}

const isComfortable = ({ altitudeDeg }: Horizontal): boolean =>
  altitudeDeg >= COMFORTABLE.lowestDeg && altitudeDeg <= COMFORTABLE.highestDeg

/** The first three that do not all hang on one star, which a cloud may take. */
function fewOf(pairs: readonly AlignmentPair[]): readonly AlignmentPair[] {
  const few: AlignmentPair[] = []
  const uses = (star: AlignmentStar) => few.filter((pair) => pair.stars.some(({ key }) => key === star.key)).length
  for (const pair of pairs) {
    if (few.length < MOST_PAIRS && pair.stars.every((star) => uses(star) < MOST_USES)) few.push(pair)
  }
  return few
}
