import { isSunUp } from '../sky/sun-up.ts'
import { fieldMargin as patternFieldMargin } from './asterism.ts'
import { fieldMargin as pairFieldMargin } from './double.ts'
import { framesDeg } from './frame.ts'
import type { Impression } from './impression.ts'
import { highestPower } from './power.ts'
import { rounded } from './ramp.ts'
import type { Reason, Scene } from './reasons.ts'

const BRIGHT_MAG = 1.5
const FAINT_MAG = 0.6
const FAR_MAG = -1.2 // one newcomer in twenty still sees what is so faint; no edge any more
const HELD_BACK_MAG = 0.5
const WORTH_SAYING_MAG = 0.15
/** What stands in the way weighs at least so much more than what merely does not help. */
const CAUSE_MAG = 1.5
const SIDE_MAG = 0.9

/** True when light is to spare but something that no light helps makes the chance small. */
export const isHeldBack = ({ lightMag, otherMag }: Impression): boolean =>
  lightMag >= FAINT_MAG && otherMag < HELD_BACK_MAG

/** How much light is to spare or missing; nothing of its brightness where that does not help. */
export function marginReasons({ impression, limit, geometry }: Scene): readonly Reason[] {
  const { lightMag } = impression
  if (lightMag >= BRIGHT_MAG && !isHeldBack(impression))
    return [{ code: 'sight.bright', values: { mag: rounded(lightMag) }, magnitudes: lightMag }]
  if (lightMag >= FAINT_MAG) return []
  const beyond = isSunUp(geometry.sunAltitudeDeg) ? 'sight.sky-too-bright' : 'sight.too-faint'
  return [
    {
      code: lightMag < FAR_MAG ? beyond : 'sight.faint',
      values: { mag: rounded(Math.abs(lightMag)), limit: rounded(limit.starMag) },
      magnitudes: FAINT_MAG - lightMag,
    },
  ]
}

/** A field that cuts the thing, in degrees, or in arcminutes where degrees would tell nothing. */
export function fieldReasons({ subject, view }: Scene): readonly Reason[] {
  const needsDeg = framesDeg(subject)
  const short = needsDeg / view.trueFieldDeg
  const isWhole = subject.kind === 'double' || subject.kind === 'asterism'
  // The Moon at high power is meant to overfill the field; a pattern or a pair that is cut is no pattern and no pair.
  if (short <= (isWhole ? 1.02 : 1.15) || subject.kind === 'moon') return []
  const magnitudes = isWhole ? CAUSE_MAG - fieldMarginOf({ subject, view }) : 2.5 * Math.log10(short)
  return [{ ...fieldText(view.trueFieldDeg, needsDeg), magnitudes }]
}

function fieldMarginOf({ subject, view }: Pick<Scene, 'subject' | 'view'>): number {
  if (subject.kind === 'double') return pairFieldMargin(subject, view)
  return subject.kind === 'asterism' ? patternFieldMargin(subject, view) : CAUSE_MAG
}

function fieldText(fieldDeg: number, needsDeg: number): Reason {
  const degrees = { field: rounded(fieldDeg), needs: rounded(needsDeg) }
  if (fieldDeg >= 1 && degrees.field < degrees.needs) return { code: 'sight.field-small', values: degrees }
  return { code: 'sight.field-arcmin', values: { field: arcmin(fieldDeg), needs: arcmin(needsDeg) } }
}

const arcmin = (deg: number): number => rounded(60 * deg, 60 * deg < 10 ? 1 : 0)

/** A power that tube and air do not bear, and light that leaves the eyepiece beside the pupil. */
export function powerReasons({ view, conditions, impression }: Scene): readonly Reason[] {
  const most = highestPower(view.optics, conditions)
  const powers = { power: Math.round(view.powerX), most: Math.round(most) }
  const beyondMag = Math.min(SIDE_MAG, 2.5 * Math.log10(view.powerX / most))
  const pupils = { exitPupil: rounded(view.exitPupilMm), pupil: rounded(conditions.pupilMm) }
  const lostMag = isHeldBack(impression) ? 0 : 5 * Math.log10(view.exitPupilMm / conditions.pupilMm)
  return [
    ...(powers.power > powers.most ? [{ code: 'sight.power-beyond', values: powers, magnitudes: beyondMag }] : []),
    ...(lostMag >= WORTH_SAYING_MAG ? [{ code: 'sight.light-lost', values: pupils, magnitudes: lostMag }] : []),
  ]
}
