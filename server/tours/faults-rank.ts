import {
  FAULT_CAUSES,
  type FaultAnswer,
  type FaultCause,
  type FaultQuestion,
  type FaultSeen,
  type Miss,
  missApartDeg,
} from './faults.ts'
import { type Mistake, waysOf } from './faults-mistakes.ts'
import { lookThatTells } from './faults-next.ts'
import { type FaultSky, faultSky, type Missed, missAfter } from './faults-sky.ts'

/** A cause with the way that fits best. */
export interface Weighed {
  readonly cause: FaultCause
  readonly way: Mistake
  readonly miss: Miss
  readonly likelihood: number
}

// Common practice, no source: how often each is the reason, beside the others' 1.
const OFTEN: Readonly<Partial<Record<FaultCause, number>>> = { hour: 3, askew: 3, 'wrong-star': 2 }
/** A miss as large as this is no longer in a finder. */
const FINDER_DEG = 3
/** What is smaller is seen by nobody, so that it explains nothing. */
const SEEN_DEG = 0.25
/** A finder that is not aligned is off by this much at most. */
const LOOSE_FINDER_DEG = 3
/** Less likely than this beside the likeliest: told apart. */
const APART_ODDS = 1 / 20
/** What two misses may lie apart and still be one within the noise: its 95 per cent. */
const WITHIN_NOISE = Math.sqrt(2 * Math.log(20))
/** How likely anything at all is that was not thought of: any direction of the sky alike. */
const UNTHOUGHT = 0.3
const SKY_SQUARE_DEG = 41_253
const FAINT_SHARE = 0.01

/** The causes of a miss, likeliest first: each weighed by how likely what was seen is after it, over all ways to make it. */
export function findFaults(question: FaultQuestion): FaultAnswer {
  const sky = faultSky()
  const weighed = FAULT_CAUSES.flatMap((cause) => weigh(sky, question, cause) ?? []).sort(
    (a, b) => b.likelihood - a.likelihood,
  )
  const unthought = UNTHOUGHT * unthoughtOf(question.seen)
  const known = weighed.filter(({ likelihood }) => likelihood > unthought)
  const all = unthought + weighed.reduce((sum, { likelihood }) => sum + likelihood, 0)
  const tied = tiedWith(known, question.seen)
  const isTied = (one: Weighed): boolean => tied.includes(one)
  return {
    causes: known
      .filter((one) => one.likelihood >= FAINT_SHARE * all || isTied(one))
      .map((one) => ({ cause: one.cause, miss: one.miss, share: one.likelihood / all, isTied: isTied(one) })),
    next: lookThatTells(sky, question, tied),
  }
}

/** Those that what was seen does not tell from the first, with the first; [] when it stands alone. */
function tiedWith(known: readonly Weighed[], seen: FaultSeen): readonly Weighed[] {
  const [first] = known
  if (!first) return []
  const isNear = ({ miss }: Weighed): boolean =>
    seen.kind !== 'off' || missApartDeg(miss, first.miss) <= WITHIN_NOISE * seen.noiseDeg
  const tied = known.filter((one) => one.likelihood >= APART_ODDS * first.likelihood && isNear(one))
  return tied.length > 1 ? tied : []
}

function unthoughtOf(seen: FaultSeen): number {
  if (seen.kind === 'off') return 1 / SKY_SQUARE_DEG
  return seen.kind === 'refused' ? 0.1 : 0.2
}

function weigh(sky: FaultSky, question: FaultQuestion, cause: FaultCause): Weighed | null {
  const ways = waysOf(cause, question)
  const together = ways.reduce((sum, { weight }) => sum + weight, 0)
  let [likelihood, best, bestFit] = [0, null as Omit<Weighed, 'likelihood'> | null, 0]
  for (const way of ways) {
    const missed = missAfter(sky, question, way, question.aimed)
    const fit = (way.weight / together) * likely(question.seen, missed, way, cause)
    likelihood += fit
    if (fit > bestFit) [best, bestFit] = [{ cause, way, miss: nearestMiss(question.seen, missed.miss, way) }, fit]
  }
  return best && { ...best, likelihood: likelihood * (OFTEN[cause] ?? 1) }
}

/** Of the misses that a way stands for, the one nearest to what was seen. */
function nearestMiss(seen: FaultSeen, miss: Miss, { spreadDeg }: Mistake): Miss {
  if (seen.kind !== 'off') return miss
  const apartDeg = missApartDeg(seen, miss)
  const share = apartDeg === 0 ? 0 : Math.min(1, (2 * spreadDeg) / apartDeg)
  return {
    rightDeg: miss.rightDeg + share * (seen.rightDeg - miss.rightDeg),
    upDeg: miss.upDeg + share * (seen.upDeg - miss.upDeg),
  }
}

/** How likely what was seen is after one way to make a mistake; for a miss in degrees, by the square degree. */
function likely(seen: FaultSeen, { miss, believedAltitudeDeg }: Missed, way: Mistake, cause: FaultCause): number {
  const missDeg = Math.hypot(miss.rightDeg, miss.upDeg)
  const goes = believedAltitudeDeg > 0
  if (seen.kind === 'finder') return cause === 'finder' ? 1 : 0
  if (seen.kind === 'refused') return goes ? 0 : 1
  if (!goes) return 0
  if (seen.kind === 'lost') return missDeg + way.spreadDeg > FINDER_DEG && cause !== 'finder' ? 1 : 0
  if (cause === 'finder' && Math.hypot(seen.rightDeg, seen.upDeg) > LOOSE_FINDER_DEG) return 0
  if (missDeg < SEEN_DEG && way.spreadDeg === 0) return 0
  // A large miss varies more from one way to the next.
  const variance = seen.noiseDeg ** 2 + (way.spreadDeg * (1 + missDeg / 45)) ** 2
  return Math.exp((-0.5 * missApartDeg(seen, miss) ** 2) / variance) / (2 * Math.PI * variance)
}
