import type { Impression, Look } from './impression.ts'
import { UNLIMITED_MAG, viewOf } from './impression.ts'
import type { Limit } from './limit.ts'
import type { View } from './optics.ts'
import { uniformMargin } from './patch.ts'
import { ramp } from './ramp.ts'
import type { OpenClusterSubject } from './subject.ts'

/**
 * The stars of a cluster: the i-th brightest has magnitude brightest + log10(i) / slope, so that the number brighter
 * than m grows by 10^slope a magnitude. One law for all, chosen because it gives the Pleiades (2.9, 1.5 in all) at 0.3.
 */
export interface ClusterStars {
  readonly brightestMag: number
  readonly slope: number
  readonly count: number
}

const USUAL_SLOPE = 0.3
const USUAL_COUNT = 100
const SLOPE_RANGE = [0.2, 1.2] as const
/** Fewer stars than these are not a cluster to anybody. */
const HANDFUL = 5

/** The light of all the stars in units of the brightest: the sum of i^-p for i from 1 to the count, p = 0.4 / slope (Euler-Maclaurin, good to 1 %). */
function lightOfAll(slope: number, count: number): number {
  const p = 0.4 / slope
  const area = Math.abs(p - 1) < 1e-9 ? Math.log(count) : (1 - count ** (1 - p)) / (p - 1)
  return area + (1 + count ** -p) / 2 + (p * (1 - count ** (-p - 1))) / 12
}

/** The slope at which so many stars, the brightest given, add up to the total magnitude; kept inside what clusters have. */
function slopeFor(brightestMag: number, totalMag: number, count: number): number {
  const wanted = 10 ** (0.4 * (brightestMag - totalMag))
  let [low, high]: [number, number] = [...SLOPE_RANGE]
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2
    if (lightOfAll(middle, count) < wanted) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** The cluster's stars from its total magnitude and what is known of them. */
export function clusterStars({ magnitude, brightestStarMag, starCount }: OpenClusterSubject): ClusterStars {
  const count = Math.max(1, Math.round(starCount ?? USUAL_COUNT))
  if (brightestStarMag !== null)
    return { brightestMag: brightestStarMag, slope: slopeFor(brightestStarMag, magnitude, count), count }
  return { brightestMag: magnitude + 2.5 * Math.log10(lightOfAll(USUAL_SLOPE, count)), slope: USUAL_SLOPE, count }
}

/** How many of the cluster's stars are brighter than a magnitude, 0 to all; under one it is the chance of one. */
export const starsBrighter = ({ brightestMag, slope, count }: ClusterStars, magnitude: number): number =>
  Math.min(count, 10 ** (slope * (magnitude - brightestMag)))

/** How much of the cluster the field shows, 0 to 1; clusters thin out outwards, so half the width shows half. */
export const fieldShare = ({ diameterArcmin }: OpenClusterSubject, view: View): number =>
  Math.min(1, (view.trueFieldDeg * 60) / diameterArcmin)

/** How well the field frames the cluster, 0 when a fifth of it is outside to 1 with a quarter of its width to spare. */
export const framed = ({ diameterArcmin }: OpenClusterSubject, view: View): number =>
  ramp((view.trueFieldDeg * 60) / diameterArcmin, 0.8, 1.25)

/** How many stars a newcomer sees in the field. */
export const starsSeen = (cluster: OpenClusterSubject, stars: ClusterStars, view: View, limit: Limit): number =>
  fieldShare(cluster, view) * starsBrighter(stars, limit.starMag)

/** An open cluster: seen when a handful of its stars is in sight at once, or its light as a patch. */
export function openClusterLook(cluster: OpenClusterSubject, view: View): Look {
  const stars = clusterStars(cluster)
  const share = fieldShare(cluster, view)
  const handful = Math.min(HANDFUL, stars.count) / share
  const handfulMag = stars.brightestMag + Math.log10(handful) / stars.slope
  const area = (Math.PI / 4) * cluster.diameterArcmin ** 2
  const frame = framed(cluster, view)
  const spread = ramp((cluster.diameterArcmin * view.powerX) / 60, 1, 3)
  return (limit): Impression => {
    const glow = uniformMargin(limit, cluster.magnitude, area)
    const lightMag = Math.max(limit.starMag - handfulMag, glow)
    const seen = share * starsBrighter(stars, limit.starMag)
    const shape = ramp(seen, 2, 10)
    const sparkle = limit.starMag - stars.brightestMag
    const detail = ramp(seen, 8, 45) * ramp(sparkle, 0.5, 3) * frame * spread
    const gasp = ramp(seen, 20, 60) * ramp(sparkle, 2, 5)
    return { lightMag, otherMag: UNLIMITED_MAG, view: viewOf(lightMag, shape, detail, gasp) }
  }
}
