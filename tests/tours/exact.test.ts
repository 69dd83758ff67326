import { expect, it } from 'vitest'
import { FOR_TELESCOPES } from '../support/evenings.ts'
import { compared, smallNight } from '../support/exact.ts'

const objects = FOR_TELESCOPES
/** A quarter of those of the long suite: plenty for nights as small as these. */
const STEPS = 100_000

// Proved by HiGHS, an open solver of mixed-integer programmes, on a model of its own writing. The long suite holds forty.
it.each([2, 18, 37])('finds the best programme of small night %d, and a limit just above it', async (number) => {
  const grid = smallNight(number, objects)
  if (grid === null) throw new Error(`Night ${number} has an empty quarter`)
  const { found, exact, limit } = await compared(grid, STEPS)
  expect(found).toBeCloseTo(exact, 3)
  expect(limit).toBeGreaterThanOrEqual(exact - 1e-3)
  expect(limit).toBeLessThanOrEqual(exact + 1e-3 * Math.abs(exact))
})
