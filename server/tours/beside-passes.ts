import { prepare } from '../sight/sighting.ts'
import type { Aid } from './beside-aids.ts'
import type { HalfHourSpan, PassLine } from './beside-lines.ts'
import type { EveningSky } from './evening.ts'
import { sunCause } from './offered.ts'
import type { PassingThing } from './own-pass.ts'
import { POINT_DEG } from './pointing.ts'
import { geometryOfPlace, stepAt, sunAtStep } from './sky-at.ts'

/** Nobody types how high a pass goes: what is worth watching goes about so high (a choice). */
const LIKELY_DEG = 40

interface PassesInput {
  readonly sky: EveningSky
  readonly passes: readonly PassingThing[]
  readonly aid: Aid
}

/** The host's own things that come up in a half hour, at their minute: with the Sun down, and bright enough for that sky. */
export function passesInHalf(
  { sky, passes, aid }: PassesInput,
  half: HalfHourSpan,
  isFirst: boolean,
): readonly PassLine[] {
  return passes
    .filter(({ pass }) => (isFirst || pass.fromAt >= half.fromAt) && pass.fromAt < half.toAt)
    .filter((thing) => isSeen(sky, thing, aid))
    .map(({ key, pass }) => ({ what: 'pass', targetKey: key, ...pass }))
}

function isSeen(sky: EveningSky, { draft, pass }: PassingThing, { view, conditions, leastChance }: Aid): boolean {
  const step = Math.round(stepAt(sky, new Date((pass.fromAt.getTime() + pass.toAt.getTime()) / 2)))
  if (sunCause(sunAtStep(sky, step)) !== null) return false
  const place = { altitudeDeg: LIKELY_DEG, azimuthDeg: POINT_DEG * pass.fromPoint }
  const ask = prepare({ kind: 'star', magnitude: draft.magnitude, bv: null, isRed: false }, view, conditions)
  return ask(geometryOfPlace(sky, place, step)).chance >= leastChance
}
