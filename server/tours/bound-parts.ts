import { advanceBound, type Bound, beginBound, isEmpty, isSettled } from './bound.ts'
import { copyPrices, type PriceTables } from './bound-prices.ts'
import { type Answer, beginTally, countPlan, leftOf, type Question, questionOf, type Tally } from './bound-questions.ts'
import type { Grid } from './grid.ts'
import { roomFor, scoreOf } from './value.ts'

/** Of all programmes those that fit some answers. */
interface Part {
  readonly answers: readonly Answer[]
  /** None of them scores more. */
  readonly limit: number
  /** What it is to be halved by, null while it has not been worked on, and the prices to go on from, null before any. */
  readonly question: Question | null
  readonly prices: PriceTables | null
}

/** A part that is worked on. */
interface Work {
  readonly part: Part
  readonly grid: Grid
  readonly bound: Bound
  readonly tally: Tally
  /** Rounds before it is halved. */
  left: number
}

/** The proving of an upper limit as plain data: what is settled, the parts and the one worked on hold every programme between them. */
export interface Proof {
  /** The least limit found so far: no programme of the night scores more. */
  least: number
  /** The greatest limit of the parts in which nothing noticeably better is left to find. */
  settled: number
  /** The score of the best programme met on the way. */
  met: number
  parts: readonly Part[]
  work: Work | null
}

const FIRST_ROUNDS = 300
const PART_ROUNDS = 20
/** The last rounds before a part is halved, by which it is seen what is in doubt. */
const COUNTED_ROUNDS = 10
/** How boldly prices move that have settled in a part twice as large. */
const HALF_BOLDNESS = 0.3

/** A proof that has not begun, all programmes one part; one of a night with nothing to choose from is done. */
export function beginParts(grid: Grid): Proof {
  const least = isEmpty(grid) ? 0 : Number.POSITIVE_INFINITY
  const all: Part = { answers: [], limit: least, question: null, prices: null }
  return {
    least,
    settled: Number.NEGATIVE_INFINITY,
    met: Number.NEGATIVE_INFINITY,
    parts: isEmpty(grid) ? [] : [all],
    work: null,
  }
}

/**
 * Sharpens the limit by so many rounds (branch and bound): the part with the greatest limit is halved by what the stations,
 * each alone, agree least on, and each half goes on from its prices. `found` is the score of the best programme so far and
 * sets the pace alone. False when more rounds would bring nothing; slices add up.
 */
export function advanceParts(grid: Grid, proof: Proof, found: number, rounds: number): boolean {
  for (let k = 0; k < rounds; k++) {
    proof.work ??= nextWork(grid, proof)
    if (proof.work === null) return false
    const least = workRound(grid, proof, proof.work, found)
    proof.least = proof.parts.reduce((most, { limit }) => Math.max(most, limit), Math.max(proof.settled, least))
  }
  return true
}

/** Takes the part with the greatest limit off the others: all of it, or where it was worked on its first half. */
function nextWork(grid: Grid, proof: Proof): Work | null {
  const [first, ...others] = proof.parts
  if (first === undefined) return null
  const next = others.reduce((most, part) => (part.limit > most.limit ? part : most), first)
  const left = proof.parts.filter((part) => part !== next)
  const { answers, question } = next
  const halfOf = (answer: Answer): Part => ({ ...next, answers: [...answers, answer], question: null })
  proof.parts = question === null ? left : [...left, halfOf({ ...question, isShown: false })]
  return workOn(grid, question === null ? next : halfOf({ ...question, isShown: true }))
}

function workOn(night: Grid, part: Part): Work {
  const grid = leftOf(night, part.answers)
  const bound = beginBound(grid)
  const work = { part, grid, bound, tally: beginTally(grid), left: FIRST_ROUNDS }
  if (part.prices === null) return work
  copyPrices(part.prices, bound.prices.now)
  bound.least = part.limit
  bound.boldness = HALF_BOLDNESS
  return { ...work, left: PART_ROUNDS }
}

/** One round, and what follows from it for the part; its limit. */
function workRound(night: Grid, proof: Proof, work: Work, found: number): number {
  const { grid, bound, tally } = work
  const isGoing = advanceBound(grid, bound, Math.max(found, proof.met), 1)
  if (isGoing) {
    work.left--
    proof.met = Math.max(proof.met, scoreOf(night, bound.plan, roomFor(night)))
    if (work.left < COUNTED_ROUNDS) countPlan(grid, tally, bound.plan)
  }
  if (!isGoing || isSettled(bound.least, Math.max(found, proof.met))) {
    proof.settled = Math.max(proof.settled, bound.least)
    proof.work = null
  } else if (work.left <= 0) putBack(proof, work)
  return bound.least
}

/** A part in which nothing is in doubt is worked on until its prices come to rest. */
function putBack(proof: Proof, { part, grid, bound, tally }: Work): void {
  const question = questionOf(grid, tally)
  if (question === null) return
  proof.parts = [...proof.parts, { ...part, limit: bound.least, question, prices: bound.prices.now }]
  proof.work = null
}
