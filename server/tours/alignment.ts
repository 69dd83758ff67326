import { wrap180 } from '../sky/angles.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import { type BrightStar, type Light, lightsOver, type NamedBody } from './alignment-lights.ts'
import { type AlignmentProof, proofOf } from './alignment-proof.ts'
import { type AlignmentNight, type AlignmentStar, alignmentStars, centrable } from './alignment-stars.ts'
import { meanErrorFactor } from './pointing-error.ts'
import { placeOf } from './site.ts'
import { apartDeg } from './sky-at.ts'

/** Two stars to set a driven mount up on, the brighter first. */
export interface AlignmentPair {
  readonly stars: readonly [AlignmentStar, AlignmentStar]
  readonly separationDeg: number
  /** How far apart they stand along the horizon, 0 to 180. */
  readonly azimuthApartDeg: number
  /** How many times one star's centring error the mount misses by, as a mean over tonight's targets. */
  readonly meanErrorFactor: number
  /** What to turn to afterwards; null when nothing else is plain enough. */
  readonly proof: AlignmentProof | null
}

export interface AlignmentQuestion {
  /** Bright stars with names, down to V 3. */
  readonly stars: readonly BrightStar[]
  /** The Moon and the planets, which may be taken for a star. */
  readonly bodies: readonly NamedBody[]
  readonly night: AlignmentNight
  readonly at: Date
  /** Where tonight's targets will stand when they are shown; without any the whole sky counts. */
  readonly targets: readonly Horizontal[]
}

// Common practice, no source.
const COMFORTABLE = { lowestDeg: 20, highestDeg: 65 } as const
const FIRST_MAGNITUDE = 1.5
/** As far as two stars should stand apart along the horizon, and no farther. */
export const APART_DEG = 90
const NEARLY_APART_DEG = 45
export const OPPOSITE_DEG = 160
/** Outside of this the variance of the attitude is 1.8 times the least or more. */
const SEPARATION = { leastDeg: 45, mostDeg: 135 } as const
const MOST_PAIRS = 3
const MOST_USES = 2

/**
 * At most three pairs to align on, the best of all, no star in all three. Empty when fewer than two stars can be centred,
 * as by day.
 */
export function alignmentPairs(question: AlignmentQuestion): readonly AlignmentPair[] {
  const { pairs, able } = rankedPairs(question)
  return fewOf(pairs).map((pair) => ({ ...pair, proof: proofOf(pair.stars, able) }))
}

/** Every pair of stars that can be centred, best first, and all that can be centred. */
interface RankedPairs {
  readonly pairs: readonly UnprovedPair[]
  readonly able: readonly Light[]
}

/**
 * By how well the rules of height and azimuth are kept (and the rule that an alt-az mount learns little from a star at the
 * pole), then by how unmistakable the two are (of the first magnitude, alone, both), then by the pointing error that is left.
 */
export function rankedPairs({ stars, bodies, night, at, targets }: AlignmentQuestion): RankedPairs {
  const lights = lightsOver(stars, bodies, at, placeOf(night.site))
  const able = centrable(lights, night, at)
  const byMagnitude = alignmentStars(able, lights).toSorted((a, b) => a.magnitude - b.magnitude)
  const pairs = byMagnitude.flatMap((first, i) =>
    byMagnitude.slice(i + 1).map((second) => pairOf(first, second, targets)),
  )
  const isAltAz = night.stations.some(({ telescope }) => telescope?.mount === 'altaz-driven')
  const best = pairs.map((pair) => ranked(pair, isAltAz)).sort(byRank)
  return { pairs: best.map(({ pair }) => pair), able }
}

type UnprovedPair = Omit<AlignmentPair, 'proof'>

function pairOf(first: AlignmentStar, second: AlignmentStar, targets: readonly Horizontal[]): UnprovedPair {
  return {
    stars: [first, second],
    separationDeg: apartDeg(first.direction, second.direction),
    azimuthApartDeg: Math.abs(wrap180(first.direction.azimuthDeg - second.direction.azimuthDeg)),
    meanErrorFactor: meanErrorFactor(first.direction, second.direction, targets),
  }
}

const ranked = (pair: UnprovedPair, isAltAz: boolean) => ({
  pair,
  breach: breachOf(pair, isAltAz),
  // 0 where the azimuths are as they should be.
  shortDeg: Math.max(0, APART_DEG - pair.azimuthApartDeg, pair.azimuthApartDeg - OPPOSITE_DEG),
  unmistakable: gradeOf(pair.stars[0]) + gradeOf(pair.stars[1]),
})

const gradeOf = (star: AlignmentStar): number => Number(isFirstMagnitude(star)) + Number(star.lookAlike === null)

/** True for a star that stands out by its brightness alone. */
export const isFirstMagnitude = ({ magnitude }: Pick<AlignmentStar, 'magnitude'>): boolean =>
  magnitude <= FIRST_MAGNITUDE

type Ranked = ReturnType<typeof ranked>

const byRank = (a: Ranked, b: Ranked): number =>
  a.breach - b.breach ||
  a.shortDeg - b.shortDeg ||
  b.unmistakable - a.unmistakable ||
  a.pair.meanErrorFactor - b.pair.meanErrorFactor

/** Which rule a pair breaks: 0 none, 1 too near or too far on the sky or a star at the pole for an alt-az mount, 2 a height, 3 less than 90 degrees of azimuth, 4 less than 45 or opposite. */
function breachOf({ stars, separationDeg, azimuthApartDeg }: UnprovedPair, isAltAz: boolean): number {
  if (azimuthApartDeg < NEARLY_APART_DEG || azimuthApartDeg > OPPOSITE_DEG) return 4
  if (azimuthApartDeg < APART_DEG) return 3
  if (!stars.every(({ direction }) => isComfortable(direction))) return 2
  if (isAltAz && stars.some(({ isNearPole }) => isNearPole)) return 1
  return separationDeg < SEPARATION.leastDeg || separationDeg > SEPARATION.mostDeg ? 1 : 0
}

const isComfortable = ({ altitudeDeg }: Horizontal): boolean =>
  altitudeDeg >= COMFORTABLE.lowestDeg && altitudeDeg <= COMFORTABLE.highestDeg

/** The first three that do not all hang on one star, which a cloud may take. */
function fewOf(pairs: readonly UnprovedPair[]): readonly UnprovedPair[] {
  const few: UnprovedPair[] = []
  const uses = (star: AlignmentStar) => few.filter((pair) => pair.stars.some(({ key }) => key === star.key)).length
  for (const pair of pairs) {
    if (few.length < MOST_PAIRS && pair.stars.every((star) => uses(star) < MOST_USES)) few.push(pair)
  }
  return few
}
