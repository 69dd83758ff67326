import { afterAll, beforeAll, expect, it } from 'vitest'
import { recordRow } from '../support/fault-rows.ts'
import { MUTANTS } from '../support/mutants.ts'
import { mutatedTree } from '../support/mutated-tree.ts'

const FAILED = /Tests .*\d+ failed/
const LEAST = 12

let tree: ReturnType<typeof mutatedTree>
const found: string[] = []
beforeAll(() => {
  tree = mutatedTree()
})
afterAll(() => {
  tree.remove()
  const reached = `${found.length} of ${MUTANTS.length} mutants turn the tests red`
  const isReached = found.length === MUTANTS.length && found.length >= LEAST
  console.log(reached)
  recordRow({ row: 19, part: 'mutants', reached, isReached, seed: null, count: MUTANTS.length })
})

it('the same tests are green where nothing was torn', () => {
  const whole = tree.tested([...new Set(MUTANTS.map(({ test }) => test))])
  expect(whole.isGreen, whole.said).toBe(true)
})

it.each(MUTANTS)('$name: $test turns red', (mutant) => {
  const torn = tree.testedWith(mutant)
  expect(torn.isGreen, torn.said).toBe(false)
  expect(torn.said).toMatch(FAILED)
  found.push(mutant.name)
})
