import { wrap180 } from '../../server/sky/angles.ts'
import type { Horizontal } from '../../server/sky/horizontal.ts'
import { starHorizontal } from '../../server/sky/star.ts'
import { type AlignmentPair, type AlignmentQuestion, rankedPairs } from '../../server/tours/alignment.ts'
import type { NamedBody } from '../../server/tours/alignment-lights.ts'
import { nightHours } from '../../server/tours/hours.ts'
import { apartDeg } from '../../server/tours/sky-at.ts'
import { brightStars } from './bright-stars.ts'
import { type DrawnError, drawnError, normalDraws } from './centring-draws.ts'
import { FOR_TELESCOPES } from './evenings.ts'
import { generatedNight } from './generated-nights.ts'

/** Of a pair that eyes see as one star, the brighter alone, as the desk gives them. */
const stars = brightStars().filter(({ name }) => name !== 'Toliman')
const things = FOR_TELESCOPES
const BODIES: readonly NamedBody[] = (['moon', 'venus', 'mars', 'jupiter', 'saturn'] as const).map((key) => ({
  key,
  name: key,
}))
const HOUR_MS = 3_600_000
const MOST_TARGETS = 10
/** Two pairs whose simulated errors differ by less than so many of their standard errors cannot be told apart. */
const SURE = 4

/** The stars of a generated night at its opening, for the whole sky. */
export function alignmentQuestion(number: number): AlignmentQuestion {
  const night = generatedNight(number)
  return { stars, bodies: BODIES, night, at: nightHours(night).opensAt, targets: [] }
}

/** Ten things of the list, where they stand an hour later. */
function targetsOf({ night, at: opensAt }: AlignmentQuestion, number: number): readonly Horizontal[] {
  const at = new Date(opensAt.getTime() + HOUR_MS)
  const up = things.flatMap(({ raDeg, decDeg, ...motion }) => {
    if (raDeg === null || decDeg === null) return []
    const direction = starHorizontal({ ...motion, raDeg, decDeg }, at, night.site)
    return direction.altitudeDeg > 20 && direction.altitudeDeg < 80 ? [direction] : []
  })
  const every = Math.max(1, Math.floor(up.length / MOST_TARGETS))
  return up.filter((_, i) => i % every === number % every).slice(0, MOST_TARGETS)
}

type Pair = Omit<AlignmentPair, 'proof'>

/** What the trade asks of a pair, written down once more by hand: less is better, one after the other. */
function rulesOf({ stars: two, azimuthApartDeg }: Pair, isAltAz: boolean): readonly number[] {
  const [a, b] = two
  const turn = Math.abs(wrap180(a.direction.azimuthDeg - b.direction.azimuthDeg))
  if (Math.abs(turn - azimuthApartDeg) > 1e-9) throw new Error('The azimuths do not give that turn')
  const separation = apartDeg(a.direction, b.direction)
  const isEasy = two.every(({ direction: { altitudeDeg } }) => altitudeDeg >= 20 && altitudeDeg <= 65)
  const isWide = separation >= 45 && separation <= 135
  const isAwayFromPole = !isAltAz || two.every(({ isNearPole }) => !isNearPole)
  const isTurned = turn >= 90 && turn <= 160
  const rank = isTurned ? (isEasy ? (isWide && isAwayFromPole ? 0 : 1) : 2) : turn < 45 || turn > 160 ? 4 : 3
  const bright = two.filter(({ magnitude }) => magnitude <= 1.5).length
  const alone = two.filter(({ lookAlike }) => lookAlike === null).length
  return [rank, Math.max(0, 90 - turn, turn - 160), -(bright + alone)]
}

const compare = (a: readonly number[], b: readonly number[]): number =>
  a.map((value, i) => value - (b[i] ?? 0)).find((by) => by !== 0) ?? 0

interface OrderFigures {
  readonly pairs: number
  /** Pairs in the wrong order by a rule, or by a simulated error that is surely greater. */
  readonly wrong: readonly string[]
  /** Two pairs alike by the rules, of which the simulated error decides; and of these the ones too near to be told apart. */
  readonly decided: number
  readonly tooNear: number
  /** The greatest part by which a pair's simulated error is above that of one ranked after it for its error alone. */
  readonly lossPart: number
  /** The greatest part by which the closed form and the simulated error of a pair differ. */
  readonly worstPart: number
  /** The share of misses of the best pair under twice its error; 1 without a pair. */
  readonly underTwice: number
}

/** Ranks all pairs of a generated night by force and compares the order. */
export function orderOf(number: number, draws: number): OrderFigures {
  const asked = alignmentQuestion(number)
  const question = { ...asked, targets: targetsOf(asked, number) }
  const { pairs } = rankedPairs(question)
  const isAltAz = question.night.stations.some(({ telescope }) => telescope?.mount === 'altaz-driven')
  const normals = normalDraws(draws, number + 1)
  const forced = pairs.map((pair) => ({
    pair,
    rules: rulesOf(pair, isAltAz),
    drawn: drawnError([pair.stars[0].direction, pair.stars[1].direction], question.targets, normals),
  }))
  const nameOf = ({ stars: two }: Pair) => two.map(({ name }) => name).join('+')
  const wrong: string[] = []
  let [decided, tooNear, lossPart] = [0, 0, 0]
  for (const [i, first] of forced.entries()) {
    for (const second of forced.slice(i + 1)) {
      const byRules = compare(first.rules, second.rules)
      const sure = surelyMore(first.drawn, second.drawn)
      if (byRules === 0) decided++
      if (byRules === 0) lossPart = Math.max(lossPart, first.drawn.mean / second.drawn.mean - 1)
      if (byRules === 0 && Math.abs(sure) < SURE) tooNear++
      if (byRules > 0 || (byRules === 0 && sure >= SURE))
        wrong.push(`${nameOf(first.pair)} before ${nameOf(second.pair)}`)
    }
  }
  const parts = forced.map(({ pair, drawn }) => Math.abs(drawn.mean / pair.meanErrorFactor - 1))
  const underTwice = forced[0]?.drawn.underTwice ?? 1
  return { pairs: pairs.length, wrong, decided, tooNear, lossPart, worstPart: Math.max(0, ...parts), underTwice }
}

/** By how many standard errors one simulated error is greater than another; the draws are the same, so heap is set against heap. */
function surelyMore(a: DrawnError, b: DrawnError): number {
  const by = a.heaps.map((heap, k) => heap - (b.heaps[k] ?? 0))
  const mean = by.reduce((sum, each) => sum + each, 0) / by.length
  const variance = by.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (by.length - 1)
  return variance === 0 ? 0 : mean / Math.sqrt(variance / by.length)
}
