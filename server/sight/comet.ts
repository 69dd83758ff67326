import { apparentArcmin } from './cloud.ts'
import type { Impression, Look } from './impression.ts'
import { UNLIMITED_MAG, viewOf } from './impression.ts'
import type { View } from './optics.ts'
import { comaPatch, patchMargin } from './patch.ts'
import { ramp } from './ramp.ts'
import type { CometSubject } from './subject.ts'

/** A comet: a glow about a middle; a bright one shows a form, and a gasp is kept for those that are seen by eye (common practice, no source). */
export function cometLook(comet: CometSubject, view: View): Look {
  const coma = comaPatch(comet.magnitude, comet.comaArcmin, comet.condensation, view.trueFieldDeg)
  const large = ramp(apparentArcmin(comet.comaArcmin, comet.comaArcmin, view), 60, 240)
  return (limit): Impression => {
    const lightMag = patchMargin(limit, coma)
    const shape = large * ramp(lightMag, 0.5, 2)
    return {
      lightMag,
      otherMag: UNLIMITED_MAG,
      view: viewOf(lightMag, shape, ramp(lightMag, 2, 4), ramp(lightMag, 4, 7)),
    }
  }
}
