import type { Light } from './alignment-lights.ts'
import { apartDeg } from './sky-at.ts'

/** A third thing to turn to after the two stars: it must then stand in the eyepiece. */
export type AlignmentProof = Pick<Light, 'key' | 'name' | 'kind' | 'magnitude' | 'colour' | 'direction'>

/** Nearer to a star that was centred a mount points well whatever else is wrong. Common practice, no source. */
const AWAY_DEG = 30

/**
 * The plainest light, of those that can be centred, at least 30 degrees from both stars: the Moon or a planet before any
 * star, since two centred stars hide a wrong hour or date and all stars then agree; the brightest first. Null without one.
 */
export function proofOf(
  stars: readonly [Pick<Light, 'direction'>, Pick<Light, 'direction'>],
  able: readonly Light[],
): AlignmentProof | null {
  const isAway = ({ direction }: Light) => stars.every((star) => apartDeg(star.direction, direction) >= AWAY_DEG)
  const isStar = ({ kind }: Light) => Number(kind === 'star')
  const [proof] = able.filter(isAway).sort((a, b) => isStar(a) - isStar(b) || a.magnitude - b.magnitude)
  if (!proof) return null
  const { key, name, kind, magnitude, colour, direction } = proof
  return { key, name, kind, magnitude, colour, direction }
}
