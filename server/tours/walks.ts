import { type ClearSpan, clearSpans } from './clear-spans.ts'
import type { EveningSky } from './evening.ts'
import { nightHours } from './hours.ts'
import type { Night } from './night.ts'
import { type WhyNot, whyNotOf } from './offered.ts'
import { instantAtStep, stepAt, targetAtStep } from './sky-at.ts'
import { skylineAt } from './skyline.ts'

/** Where the object stands at one moment, and the top of what stands below it at that compass point. */
export interface WalkPoint {
  readonly at: Date
  readonly altitudeDeg: number
  readonly azimuthDeg: number
  readonly skylineDeg: number
  readonly isClear: boolean
}

/** The way of one target over the public hours, and when it is clear for a bare eye: of the Sun, of trees and roofs, and 10 degrees high. */
export interface Walk {
  readonly targetKey: string
  readonly walk: readonly WalkPoint[]
  readonly clear: readonly ClearSpan[]
}

/** No mount limits a bare eye. */
export const BARE_EYE = { floorDeg: 0, ceilingDeg: 90 }

interface Evening {
  readonly night: Night
  readonly sky: EveningSky
}

/** What stands in the way of a bare eye. */
export const byEyeOf = ({ night, sky }: Evening, targetIndex: number): WhyNot =>
  whyNotOf({ sky, site: night.site, mount: BARE_EYE }, targetIndex)

/** The way of a target of the evening's sky, by its number there. */
export function walkOf(evening: Evening, targetIndex: number): Walk {
  const { night, sky } = evening
  const { opensAt, closesAt } = nightHours(night)
  const whyNot = byEyeOf(evening, targetIndex)
  const [first, last] = [Math.ceil(stepAt(sky, opensAt)), Math.floor(stepAt(sky, closesAt))]
  const walk = Array.from({ length: Math.max(0, last - first + 1) }, (_, k) => {
    const place = targetAtStep(sky, targetIndex, first + k)
    const { altitudeDeg: skylineDeg } = skylineAt(night.site.horizon, place.azimuthDeg)
    return { at: instantAtStep(sky, first + k), ...place, skylineDeg, isClear: whyNot(first + k) === null }
  })
  return { targetKey: sky.targetKeys[targetIndex] ?? '', walk, clear: clearSpans(sky, whyNot, opensAt, closesAt) }
}

/** The ways of the targets asked for; what is not in the evening's sky is left out. */
export const walksOf = (evening: Evening, keys: readonly string[]): readonly Walk[] =>
  keys.flatMap((key) => {
    const targetIndex = evening.sky.targetKeys.indexOf(key)
    return targetIndex < 0 ? [] : [walkOf(evening, targetIndex)]
  })
