import { type FaultLook, type FaultQuestion, type FaultThing, missApartDeg } from './faults.ts'
import type { Weighed } from './faults-rank.ts'
import { type FaultSky, missAfter } from './faults-sky.ts'

// Common practice, no source.
const LOOKED_AT = { lowestDeg: 15, highestDeg: 75, magnitude: 2 } as const
/** Misses that lie this far apart are told apart by eye. */
const TOLD_DEG = 2
const MOST_CAUSES = 3

/**
 * What to look at next so that the causes part that cannot be told apart: of the bright things well up the one at which
 * their misses lie farthest from each other. Null for one cause alone, and when they lie too near everywhere.
 */
export function lookThatTells(sky: FaultSky, question: FaultQuestion, tied: readonly Weighed[]): FaultLook | null {
  const apart = tied.slice(0, MOST_CAUSES)
  if (apart.length < 2) return null
  const looks = question.lights
    .filter((thing) => isWellUp(sky, question, thing) && !isKnown(question, thing))
    .map((thing) => ({ thing, misses: apart.map((one) => missAt(sky, question, one, thing)) }))
    .map((look) => ({ look, toldDeg: leastApart(look) }))
    .sort((a, b) => b.toldDeg - a.toldDeg)
  const [best] = looks
  return best && best.toldDeg >= TOLD_DEG ? best.look : null
}

function isWellUp(sky: FaultSky, { at, place }: FaultQuestion, thing: FaultThing): boolean {
  const { altitudeDeg } = sky(thing, at, place)
  const { lowestDeg, highestDeg, magnitude } = LOOKED_AT
  return thing.magnitude <= magnitude && altitudeDeg >= lowestDeg && altitudeDeg <= highestDeg
}

const isKnown = ({ aimed, centred }: FaultQuestion, { key }: FaultThing): boolean =>
  [aimed, ...centred].some((thing) => thing.key === key)

const missAt = (sky: FaultSky, question: FaultQuestion, { cause, way }: Weighed, thing: FaultThing) => ({
  cause,
  miss: missAfter(sky, question, way, thing).miss,
})

const leastApart = ({ misses }: FaultLook): number =>
  Math.min(...misses.flatMap((a, i) => misses.slice(i + 1).map((b) => missApartDeg(a.miss, b.miss))))
