import type { BuiltTour } from './build.ts'

/** What a wish costs: the target that loses most looks by it, and how many; null when nobody would notice. */
export interface WishCost {
  readonly wishId: string
  readonly loss: { readonly targetKey: string; readonly looks: number } | null
}

/** A programme with its score: value less the weight of every rule that gave way. */
export type Scored = Pick<BuiltTour, 'stops'> & { readonly score: number }

const LEAST_NOTICED = 1

/**
 * The target that has most looks fewer in the programme with a wish than in the one without it. Where the one without is
 * not worth noticeably more, the two differ by chance and the wish costs nothing.
 */
export function lossOf(without: Scored, withIt: Scored): WishCost['loss'] {
  if (without.score - withIt.score < LEAST_NOTICED) return null
  const looks = looksByTarget(without)
  for (const [key, count] of looksByTarget(withIt)) looks.set(key, (looks.get(key) ?? 0) - count)
  const [most] = [...looks].sort((a, b) => b[1] - a[1])
  return most && most[1] >= LEAST_NOTICED ? { targetKey: most[0], looks: most[1] } : null
}

function looksByTarget({ stops }: Pick<BuiltTour, 'stops'>): Map<string, number> {
  const looks = new Map<string, number>()
  for (const stop of stops) looks.set(stop.targetKey, (looks.get(stop.targetKey) ?? 0) + stop.looks)
  return looks
}
