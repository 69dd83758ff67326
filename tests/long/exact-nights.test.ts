import { expect, it } from 'vitest'
import { FOR_TELESCOPES } from '../support/evenings.ts'
import { compared, smallNight } from '../support/exact.ts'

const objects = FOR_TELESCOPES
const NIGHTS = 40

// Proved by HiGHS, an open solver of mixed-integer programmes, on a model of its own writing.
it('finds the best programme of forty small nights, and a limit just above each', async () => {
  let [done, most] = [0, 0]
  for (let number = 0; done < NIGHTS; number++) {
    const grid = smallNight(number, objects)
    if (grid === null) continue
    const { found, exact, limit } = await compared(grid)
    expect(found, `night ${number}`).toBeCloseTo(exact, 3)
    expect(limit, `night ${number}`).toBeGreaterThanOrEqual(exact - 1e-3)
    expect(limit, `night ${number}`).toBeLessThanOrEqual(exact + 1e-3 * Math.abs(exact))
    if (grid.stations.length > 2) most++
    done++
  }
  console.log(`${done} small nights proved, ${most} of them with three or four stations`)
  expect(most).toBeGreaterThanOrEqual(NIGHTS / 2)
})
