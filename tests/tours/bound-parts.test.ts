import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../server/sky/random.ts'
import { advanceBound, beginBound } from '../../server/tours/bound.ts'
import { advanceParts, beginParts, type Proof } from '../../server/tours/bound-parts.ts'
import { beginTally, countPlan, leftOf, questionOf } from '../../server/tours/bound-questions.ts'
import { cellAt, type Grid, type Plan } from '../../server/tours/grid.ts'
import type { Night } from '../../server/tours/night.ts'
import { advanceSearch, beginSearch } from '../../server/tours/solver.ts'
import { roomFor, scoreOf } from '../../server/tours/value.ts'
import { demoNight } from '../support/demo-night.ts'
import { eveningOf, openGridOn } from '../support/evenings.ts'
import { generatedNight } from '../support/generated-nights.ts'

const gridFor = (night: Night): Grid => openGridOn(eveningOf(night))

function proved(grid: Grid, found: number, rounds: number): Proof {
  const proof = beginParts(grid)
  advanceParts(grid, proof, found, rounds)
  return proof
}

/** Two telescopes, one of which would show the same two planets and nebulae again and again, were each look at its price. */
const loose = gridFor(generatedNight(33))
const search = beginSearch(loose, 1)
advanceSearch(loose, search, 150_000)
const found = search.bestScore
/** Of seven rounds: more in all than the whole night is worked on before it is halved. */
const SLICES = 48

describe('a limit proved in parts', () => {
  it('comes down to the best programme where prices alone do not', () => {
    const bound = beginBound(loose)
    advanceBound(loose, bound, found, 1500)
    expect(bound.least).toBeGreaterThan(found * 1.01)
    const proof = proved(loose, found, 1500)
    expect(proof.least).toBeLessThan(found * 1.001)
    expect(proof.least).toBeGreaterThanOrEqual(found - 1e-9)
    expect(advanceParts(loose, proof, found, 1)).toBe(false)
  })

  it.each([0.5, 0.95, 1.02])('never lies below it, were %d times its score taken as found', (times) => {
    const proof = beginParts(loose)
    for (const rounds of [1, 319, 280]) {
      advanceParts(loose, proof, found * times, rounds)
      expect(proof.least).toBeGreaterThanOrEqual(found - 1e-9)
    }
  })

  it('meets programmes on its way, none better than there is', () => {
    const { met, least } = proved(loose, found, 700)
    expect(met).toBeGreaterThan(found * 0.9)
    expect(met).toBeLessThanOrEqual(least + 1e-9)
  })

  it('is the same however its rounds are sliced, and never rises', () => {
    const sliced = beginParts(loose)
    const limits: number[] = []
    for (let k = 0; k < SLICES; k++) {
      advanceParts(loose, sliced, found, 7)
      limits.push(sliced.least)
    }
    expect(sliced.least).toBe(proved(loose, found, 7 * SLICES).least)
    expect(limits).toEqual([...limits].sort((a, b) => b - a))
  })

  it('is nothing where there is nothing to choose from', () => {
    const empty = gridFor({ ...demoNight, stations: [] })
    const proof = beginParts(empty)
    expect(advanceParts(empty, proof, 0, 10)).toBe(false)
    expect(proof.least).toBe(0)
  })
})

describe('a question', () => {
  const grid = gridFor(demoNight)

  /** Something on offer at every station in every quarter, by chance and in runs. */
  function anyPlan(random: () => number): Plan {
    let last = -1
    return Int16Array.from(grid.ranked, (offered, at) => {
      if (at % grid.slots === 0) last = -1
      if (!offered.includes(last) || random() < 0.3) last = offered[Math.floor(random() ** 2 * offered.length)] ?? -1
      return last
    })
  }

  it('is not asked where all plans are the same', () => {
    const tally = beginTally(grid)
    const plan = anyPlan(seededRandom(1))
    for (let k = 0; k < 5; k++) countPlan(grid, tally, plan)
    expect(questionOf(grid, tally)).toBeNull()
  })

  it('puts every programme into one half, with all that it shows still on offer and worth the same', () => {
    const random = seededRandom(5)
    const [room, tally] = [roomFor(grid), beginTally(grid)]
    for (let k = 0; k < 10; k++) countPlan(grid, tally, anyPlan(random))
    const question = questionOf(grid, tally)
    if (question === null) throw new Error('No question')
    const { station, target, slot } = question
    const halves = [true, false].map((isShown) => leftOf(grid, [{ ...question, isShown }]))
    let shown = 0
    for (let k = 0; k < 200; k++) {
      const plan = anyPlan(random)
      const isShown = grid.targetOf[plan[station * grid.slots + slot] ?? -1] === target
      if (isShown) shown++
      const fits = halves.map((half) =>
        [...plan].every(
          (c, at) => c < 0 || (half.worth[cellAt(half, Math.floor(at / grid.slots), c, at % grid.slots)] ?? 0) > 0,
        ),
      )
      expect(fits).toEqual([isShown, !isShown])
      const half = halves[isShown ? 0 : 1] ?? grid
      expect(scoreOf(half, plan, room)).toBe(scoreOf(grid, plan, room))
    }
    expect(shown).toBeGreaterThan(0)
  })
})
