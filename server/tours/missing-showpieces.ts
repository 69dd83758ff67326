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

/** False for what is a showpiece of no night. */
export const isEverShowpiece = ({ kind, appeal }: ShowObject): boolean =>
  appeal >= (STARS.includes(kind) ? SHOWPIECE_APPEAL : BEST_OF_KIND_APPEAL)

/**
 * The showpieces of a night, the most appealing first: of the things that are up at some time of the public hours those of
 * appeal 0.7 and more, and the best of each kind; of single and double stars at most three.
 */
export function showpiecesOf(night: Night, sky: EveningSky, objects: readonly ShowObject[]): readonly ShowObject[] {
  const steps = stepsOf(night, sky)
  const rows = new Map(sky.targetKeys.map((key, row) => [key, row]))
  const up = objects.filter(({ key }) => isUp(sky, rows.get(key), steps))
  const byAppeal = up.toSorted((a, b) => b.appeal - a.appeal)
  const stars = byAppeal.filter(({ kind, appeal }) => STARS.includes(kind) && appeal >= SHOWPIECE_APPEAL)
  const others = byAppeal.filter(({ kind }) => !STARS.includes(kind))
  const isBestOfKind = ({ key, kind, appeal }: ShowObject): boolean =>
    appeal >= BEST_OF_KIND_APPEAL && others.find((other) => other.kind === kind)?.key === key
  const kept = others.filter((object) => object.appeal >= SHOWPIECE_APPEAL || isBestOfKind(object))
  return [...kept, ...stars.slice(0, MOST_STARS)].sort((a, b) => b.appeal - a.appeal)
}

/** Opening, and every step of the evening's sky after it until closing. */
function stepsOf(night: Night, sky: EveningSky): readonly number[] {
  const { opensAt, closesAt } = nightHours(night)
  const [first, last] = [stepAt(sky, opensAt), stepAt(sky, closesAt)]
  return Array.from({ length: Math.max(0, Math.floor(last - first) + 1) }, (_, i) => first + i)
}

/** True when a target stands above 10 degrees at some of the steps. */
const isUp = (sky: EveningSky, targetIndex: number | undefined, steps: readonly number[]): boolean =>
  targetIndex !== undefined && steps.some((step) => targetAtStep(sky, targetIndex, step).altitudeDeg > UP_DEG)
