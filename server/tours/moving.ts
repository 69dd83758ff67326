import type { ObjectKind } from './target.ts'
import type { MountKind } from './telescope.ts'

const CENTRE_AND_FOCUS_MIN = 1
const CHANGE_EYEPIECE_MIN = 1
/** Degrees a minute of a driven mount, and of a tube pushed by hand with a look through the finder. */
const SWING_DEG_PER_MIN = { 'altaz-driven': 90, equatorial: 90, 'altaz-hand': 60 } as const
/** By hand a faint thing takes three to five minutes to find, a bright one does not; common practice, no source. */
const FIND_BY_HAND_MIN = 3

/** Minutes in which nobody looks when a mount goes over to a target of that kind, `apartDeg` degrees away. */
export function movingMin(mount: MountKind, kind: ObjectKind, apartDeg: number): number {
  const isEasy = kind === 'moon' || kind === 'planet' || kind === 'star' || kind === 'red-star'
  const find = mount === 'altaz-hand' && !isEasy ? FIND_BY_HAND_MIN : 0
  return CENTRE_AND_FOCUS_MIN + find + apartDeg / SWING_DEG_PER_MIN[mount]
}

/** Minutes for another eyepiece on the same target. */
export const changeEyepieceMin = (): number => CHANGE_EYEPIECE_MIN
