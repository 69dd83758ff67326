import type { Horizontal } from '../sky/horizontal.ts'
import { placesBetween } from './hops-frame.ts'
import { placeCause } from './offered.ts'
import type { Site } from './site.ts'
import { apartDeg } from './sky-at.ts'
import { skylineAt } from './skyline.ts'
import { BARE_EYE } from './walks.ts'

/** A light of the sky near a target, where it is seen. */
export interface FinderStar {
  /** `hip91262`, or the key of a wanderer: that is drawn, and no way leads over it. */
  readonly key: string
  /** null where the star has no name worth saying. */
  readonly name: string | null
  /** True for a letter or number of a constellation, which takes a chart to tell. */
  readonly isDesignated: boolean
  /** IAU code; null for a wanderer. */
  readonly constellation: string | null
  /** True for the brightest star of its constellation. */
  readonly isBrightest: boolean
  readonly isWanderer: boolean
  readonly magnitude: number
  readonly direction: Horizontal
}

export interface HopsView {
  readonly site: Pick<Site, 'horizon'>
  /** Width of what the finder shows. */
  readonly finderFieldDeg: number
}

// Choices; common practice, no source.
const FAINTEST_START_MAG = 3.2
const FAINTEST_HOP_MAG = 5.5
const LOWEST_DEG = 5
const ABOVE_TREES_DEG = 1
/** A hop ends somewhere in a disc half a field wide: the star meant is brighter than any other there by so much. */
const MISSED_FIELDS = 0.25
const STANDS_OUT_MAG = 0.5
/** Two so close look like one in a finder. */
const BLEND_DEG = 0.1

/** True for a star that a volunteer points out with bare eyes: bright, as high as anything that is shown, and named or the brightest of its constellation. */
export const isStart = ({ magnitude, name, isBrightest, isWanderer, direction }: FinderStar, { site }: HopsView) =>
  !isWanderer &&
  magnitude <= FAINTEST_START_MAG &&
  (name !== null || isBrightest) &&
  placeCause(direction, site, BARE_EYE) === null

/** True for a star that is seen in a finder, above trees and roofs. */
export const isUsable = ({ magnitude, isWanderer, direction }: FinderStar, { site }: HopsView): boolean =>
  !isWanderer &&
  magnitude <= FAINTEST_HOP_MAG &&
  direction.altitudeDeg >= LOWEST_DEG &&
  direction.altitudeDeg >= skylineAt(site.horizon, direction.azimuthDeg).altitudeDeg + ABOVE_TREES_DEG

/** True for a star that nobody takes for another one when the finder comes to it. */
export function standsOut(star: FinderStar, stars: readonly FinderStar[], { finderFieldDeg }: HopsView): boolean {
  const missedDeg = MISSED_FIELDS * finderFieldDeg
  return !stars.some((other) => {
    if (other.magnitude >= star.magnitude + STANDS_OUT_MAG) return false
    if (Math.abs(other.direction.altitudeDeg - star.direction.altitudeDeg) > missedDeg) return false
    const apart = apartDeg(other.direction, star.direction)
    return apart > BLEND_DEG && apart <= missedDeg
  })
}

const SAMPLE_DEG = 1

/** True when nothing of the site stands before the straight way between two places, both of which are clear. */
export function isWayClear(one: Horizontal, other: Horizontal, { site }: HopsView): boolean {
  const lowestDeg = Math.min(one.altitudeDeg, other.altitudeDeg)
  if (site.horizon.every(({ altitudeDeg }) => altitudeDeg < lowestDeg)) return true
  const count = Math.ceil(apartDeg(one, other) / SAMPLE_DEG)
  return placesBetween(one, other, count).every(
    ({ altitudeDeg, azimuthDeg }) => altitudeDeg > skylineAt(site.horizon, azimuthDeg).altitudeDeg,
  )
}
