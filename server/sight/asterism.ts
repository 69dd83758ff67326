import type { Impression, Look } from './impression.ts'
import { viewOf } from './impression.ts'
import type { View } from './optics.ts'
import { ramp } from './ramp.ts'
import type { AsterismSubject } from './subject.ts'

const ONE_OF_SIX_MAG = 2 // six like stars: each is 2.5 log 6 = 1.95 fainter than all together

/** How well the field holds the pattern, as a margin in magnitudes. */
export const fieldMargin = (pattern: AsterismSubject, view: View): number =>
  0.6 + 10 * Math.log10(view.trueFieldDeg / pattern.fieldDeg)

/** A pattern of stars: seen when its stars are bright enough and the field holds most of them. */
export function asterismLook(pattern: AsterismSubject, view: View): Look {
  const fit = view.trueFieldDeg / pattern.fieldDeg
  const otherMag = fieldMargin(pattern, view)
  const frame = ramp(fit, 0.8, 1.2)
  return (limit): Impression => {
    const lightMag = limit.starMag - (pattern.magnitude + ONE_OF_SIX_MAG)
    return { lightMag, otherMag, view: viewOf(lightMag, frame, 0.6 * ramp(lightMag, 1, 4), 0) }
  }
}
