import type { Impression, Look } from './impression.ts'
import { UNLIMITED_MAG, viewOf } from './impression.ts'
import type { View } from './optics.ts'
import { globularPatch, patchMargin } from './patch.ts'
import { ramp } from './ramp.ts'
import type { GlobularSubject } from './subject.ts'

const BRIGHTEST_BELOW_TOTAL_MAG = 6.2 // median of the bright clusters; from memory
const ONE_ARCMIN_TIP_MAG = 13.4 // a giant of -2 in a cluster whose 3.5 parsecs of half-light radius span 1 arcminute

/** V of the brightest stars of a globular cluster, estimated from its light and its size together; good to about half a magnitude. */
export const brightestGiantsMag = ({ magnitude, halfLightArcmin }: GlobularSubject): number =>
  (magnitude + BRIGHTEST_BELOW_TOTAL_MAG + ONE_ARCMIN_TIP_MAG - 5 * Math.log10(halfLightArcmin)) / 2

/** A globular cluster: a round glow that breaks up into stars once its giants are within the eye's reach. */
export function globularLook(cluster: GlobularSubject, view: View): Look {
  const thing = globularPatch(cluster.magnitude, cluster.halfLightArcmin, view.trueFieldDeg)
  const giantsMag = brightestGiantsMag(cluster)
  const large = ramp(2 * cluster.halfLightArcmin * view.powerX, 80, 400)
  return (limit): Impression => {
    const lightMag = patchMargin(limit, thing)
    const shape = large * ramp(lightMag, 0.5, 2)
    const reach = limit.starMag - giantsMag
    const detail = ramp(reach, -0.3, 1.7)
    return { lightMag, otherMag: UNLIMITED_MAG, view: viewOf(lightMag, shape, detail, ramp(reach, 1, 2.5)) }
  }
}
