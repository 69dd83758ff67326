import type { Impression, Look } from './impression.ts'
import { UNLIMITED_MAG, viewOf } from './impression.ts'
import type { View } from './optics.ts'
import { discPatch, type Patch, patchMargin, uniformPatch } from './patch.ts'
import { ramp } from './ramp.ts'
import type { CloudSubject } from './subject.ts'

/** Apparent width in arcminutes of a thing of these axes, as far as the field shows it. */
export const apparentArcmin = (major: number, minor: number, view: View): number =>
  Math.min(Math.sqrt(major * minor), view.trueFieldDeg * 60) * view.powerX

/** The light of a cloud: planetaries and remnants one brightness all over; the great nebulae have bright hearts, and one brightness would hide M42 from a town (a choice). */
const cloudPatch = ({ kind, magnitude, majorArcmin, minorArcmin }: CloudSubject, { trueFieldDeg }: View): Patch =>
  kind === 'nebula'
    ? discPatch(magnitude, majorArcmin, minorArcmin, trueFieldDeg)
    : uniformPatch(magnitude, (Math.PI / 4) * majorArcmin * minorArcmin, trueFieldDeg)

/** A cloud of gas. */
export function cloudLook(cloud: CloudSubject, view: View): Look {
  const thing = cloudPatch(cloud, view)
  const apparent = apparentArcmin(cloud.majorArcmin, cloud.minorArcmin, view)
  const large = ramp(apparent, 40, 120)
  const huge = ramp(apparent, 180, 480)
  return (limit): Impression => {
    const lightMag = patchMargin(limit, thing)
    const shape = large * ramp(lightMag, 0.3, 1.3)
    const detail = huge * ramp(lightMag, 1, 2.8)
    return { lightMag, otherMag: UNLIMITED_MAG, view: viewOf(lightMag, shape, detail, ramp(lightMag, 3, 5)) }
  }
}
