import type { EveningSky } from './evening.ts'
import { nightHours } from './hours.ts'
import type { Night } from './night.ts'
import { stepAt, targetAtStep } from './sky-at.ts'
import type { ObjectKind, ShowObject } from './target.ts'

/** From this appeal on people come for a thing. */
const SHOWPIECE_APPEAL = 0.7
/** The best of a kind is asked for by name even where newcomers are less delighted by it. */
const BEST_OF_KIND_APPEAL = 0.5
const UP_DEG = 10
const STARS: readonly ObjectKind[] = ['star', 'red-star', 'double']
const MOST_STARS = 3

/**
 * The showpieces of a night, the most appealing first: of the things that are up at some time of the public hours those of
 * appeal 0.7 and more, and the best of each kind; of single and double stars at most three.
 */
export function showpiecesOf(night: Night, sky: EveningSky, objects: readonly ShowObject[]): readonly ShowObject[] {
  const up = objects.filter(({ key }) => isUp(night, sky, sky.targetKeys.indexOf(key)))
  const byAppeal = up.toSorted((a, b) => b.appeal - a.appeal)
  const stars = byAppeal.filter(({ kind, appeal }) => STARS.includes(kind) && appeal >= SHOWPIECE_APPEAL)
  const others = byAppeal.filter(({ kind }) => !STARS.includes(kind))
  const isBestOfKind = ({ key, kind, appeal }: ShowObject): boolean =>
    appeal >= BEST_OF_KIND_APPEAL && others.find((other) => other.kind === kind)?.key === key
  const kept = others.filter((object) => object.appeal >= SHOWPIECE_APPEAL || isBestOfKind(object))
  return [...kept, ...stars.slice(0, MOST_STARS)].sort((a, b) => b.appeal - a.appeal)
}

/** True when a target stands above 10 degrees at some step of the public hours. */
function isUp(night: Night, sky: EveningSky, targetIndex: number): boolean {
  if (targetIndex < 0) return false
  const { opensAt, closesAt } = nightHours(night)
  const last = stepAt(sky, closesAt)
  for (let step = stepAt(sky, opensAt); step <= last; step++) {
    if (targetAtStep(sky, targetIndex, step).altitudeDeg > UP_DEG) return true
  }
  return false
}
