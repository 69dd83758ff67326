import type { Impression, Look } from './impression.ts'
import { UNLIMITED_MAG, viewOf } from './impression.ts'
import type { View } from './optics.ts'
import { globularPatch, patchMargin } from './patch.ts'
import { ramp } from './ramp.ts'
import type { GlobularSubject } from './subject.ts'

const TIP_OVER_BRANCH_MAG = 3 // the brightest giants over the horizontal branch: 2.4 to 3.4 in the bright clusters; from memory
const BRIGHTEST_BELOW_TOTAL_MAG = 6.2 // median of the bright clusters; from memory
const ONE_ARCMIN_TIP_MAG = 13.4 // a giant of -2 in a cluster whose 3.5 parsecs of half-light radius span 1 arcminute
/** Giants above the branch for a cluster as bright as one star of the branch, and how their number grows by magnitude: from 3 at the tip to 350 at the branch in M13; from memory, after the fuel counts of Renzini & Buzzoni 1986. */
const GIANTS_PER_BRANCH_LIGHT = 0.08
const GIANTS_SLOPE = 0.7

/** V of the horizontal branch: the catalogue's, or an estimate from light and size together, good to a magnitude. */
function branchOf({ magnitude, halfLightArcmin, branchMag }: GlobularSubject): number {
  const tip = (magnitude + BRIGHTEST_BELOW_TOTAL_MAG + ONE_ARCMIN_TIP_MAG - 5 * Math.log10(halfLightArcmin)) / 2
  return branchMag ?? tip + TIP_OVER_BRANCH_MAG
}

/** log10 of the number of the cluster's stars that are brighter than a magnitude; negative for less than one. */
function logGiants(cluster: GlobularSubject, magnitude: number): number {
  const branch = branchOf(cluster)
  const above = Math.log10(GIANTS_PER_BRANCH_LIGHT) + 0.4 * (branch - cluster.magnitude)
  return above - GIANTS_SLOPE * (branch - magnitude)
}

/** About how many of the cluster's stars are brighter than a magnitude, 0 or more. */
export const giantsBrighter = (cluster: GlobularSubject, magnitude: number): number =>
  10 ** logGiants(cluster, magnitude)

/** So many stars make its edge grainy to a newcomer, and so many make it a ball of stars (a choice). */
export const GRAINY_STARS = 8
export const BALL_STARS = 50

/** A globular cluster: a round glow that breaks up into stars once its giants are within the eye's reach. */
export function globularLook(cluster: GlobularSubject, view: View): Look {
  const thing = globularPatch(cluster.magnitude, cluster.halfLightArcmin, view.trueFieldDeg)
  const large = ramp(2 * cluster.halfLightArcmin * view.powerX, 80, 400)
  const logAtZero = logGiants(cluster, 0)
  return (limit): Impression => {
    const lightMag = patchMargin(limit, thing)
    const shape = large * ramp(lightMag, 0.5, 2)
    const stars = logAtZero + GIANTS_SLOPE * limit.starMag
    const detail = ramp(stars, Math.log10(2), Math.log10(BALL_STARS))
    const gasp = ramp(stars, Math.log10(GRAINY_STARS), Math.log10(6 * BALL_STARS))
    return { lightMag, otherMag: UNLIMITED_MAG, view: viewOf(lightMag, shape, detail, gasp) }
  }
}
