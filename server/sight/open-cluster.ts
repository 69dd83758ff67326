import { type ClusterStars, clusterStars, magnitudeOfCount, starsBrighter } from './cluster-stars.ts'
import type { Impression, Look } from './impression.ts'
import { UNLIMITED_MAG, viewOf } from './impression.ts'
import type { Limit } from './limit.ts'
import type { View } from './optics.ts'
import { uniformMargin } from './patch.ts'
import { ramp } from './ramp.ts'
import type { OpenClusterSubject } from './subject.ts'

/** Fewer stars than these are not a cluster to anybody. */
const HANDFUL = 5

/** How much of the cluster the field shows, 0 to 1; clusters thin out outwards, so half the width shows half. */
const fieldShare = ({ diameterArcmin }: OpenClusterSubject, view: View): number =>
  Math.min(1, (view.trueFieldDeg * 60) / diameterArcmin)

/** How well the field frames the cluster, 0 when a fifth of it is outside to 1 with a quarter of its width to spare. */
const framed = ({ diameterArcmin }: OpenClusterSubject, view: View): number =>
  ramp((view.trueFieldDeg * 60) / diameterArcmin, 0.8, 1.25)

/** How many stars a newcomer sees in the field. */
export const starsSeen = (cluster: OpenClusterSubject, stars: ClusterStars, view: View, limit: Limit): number =>
  fieldShare(cluster, view) * starsBrighter(stars, limit.starMag)

/** An open cluster: seen when a handful of its stars is in sight at once, or its light as a patch. */
export function openClusterLook(cluster: OpenClusterSubject, view: View): Look {
  const stars = clusterStars(cluster)
  const share = fieldShare(cluster, view)
  const firstMag = magnitudeOfCount(stars, 1)
  const handful = Math.min(HANDFUL, stars.count) / share
  const handfulMag = magnitudeOfCount(stars, handful)
  const area = (Math.PI / 4) * cluster.diameterArcmin ** 2
  const frame = framed(cluster, view)
  const spread = ramp((cluster.diameterArcmin * view.powerX) / 60, 1, 3)
  return (limit): Impression => {
    const glow = uniformMargin(limit, cluster.magnitude, area)
    const lightMag = Math.max(limit.starMag - handfulMag, glow)
    const seen = share * starsBrighter(stars, limit.starMag)
    const shape = ramp(seen, 2, 10)
    const sparkle = limit.starMag - firstMag
    const detail = ramp(seen, 8, 45) * ramp(sparkle, 0.5, 3) * frame * spread
    const gasp = ramp(seen, 20, 60) * ramp(sparkle, 2, 5)
    return { lightMag, otherMag: UNLIMITED_MAG, view: viewOf(lightMag, shape, detail, gasp) }
  }
}
