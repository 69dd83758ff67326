import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../server/sky/random.ts'
import { advanceLines, beginLines } from '../../server/tours/simulation.ts'
import type { Habits } from '../../server/tours/simulation-lines.ts'
import type { Visitor } from '../../server/tours/simulation-visitors.ts'

const CYCLE_SEC = 50
const RUNS = 40
const VISITORS = 5_000
/** The first of each run found a shorter line than usual, since the evening began with none. */
const LEFT_OUT = 500
/** Student's t for 39 degrees of freedom, 95 % within; from memory. */
const T_39 = 2.023
/** One line and no way to it; nobody ever gives up. */
const PATIENT: Habits = {
  adultPatienceSec: Number.POSITIVE_INFINITY,
  childPatienceSec: Number.POSITIVE_INFINITY,
  walkSec: 0,
}
const FOR_EVER = {
  targetKey: 'moon',
  fromSec: 0,
  untilSec: Number.POSITIVE_INFINITY,
  adultSec: CYCLE_SEC,
  childSec: CYCLE_SEC,
  eyepieces: 1,
}

/** Arrivals at random: the times between them are exponential. */
function randomArrivals(perSec: number, seed: number): Visitor[] {
  const random = seededRandom(seed)
  let sec = 0
  return Array.from({ length: VISITORS }, () => {
    sec -= Math.log(1 - random()) / perSec
    return { isChild: false, arrivesSec: sec, leavesSec: Number.POSITIVE_INFINITY }
  })
}

function meanOfRun(load: number, seed: number): number {
  const visitors = randomArrivals(load / CYCLE_SEC, seed)
  const stations = [{ stationId: 'one', stops: [FOR_EVER] }]
  const evening = beginLines({ stations, visitors, habits: PATIENT })
  while (advanceLines(evening, 10_000));
  const waits = evening.turns.slice(LEFT_OUT).map(({ joinedSec, fromSec }) => fromSec - joinedSec)
  expect(evening.turns).toHaveLength(VISITORS)
  return waits.reduce((sum, wait) => sum + wait, 0) / waits.length
}

function simulated(load: number) {
  const means = Array.from({ length: RUNS }, (_, run) => meanOfRun(load, 1_000 * load + run))
  const mean = means.reduce((sum, one) => sum + one, 0) / RUNS
  const variance = means.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (RUNS - 1)
  return { mean, within: T_39 * Math.sqrt(variance / RUNS) }
}

/**
 * Mean wait of one server with random arrivals and a fixed time of service, u s / (2 (1 - u)) for a load u below 1:
 * F. Pollaczek, Math. Z. 32 (1930), 64, and A. Khinchine, Mat. Sb. 39 (1932), 73; formula from memory.
 */
const meanWaitSec = (load: number): number => (load * CYCLE_SEC) / (2 * (1 - load))

describe('the simulated line at one telescope with random arrivals', () => {
  it.each([0.3, 0.6, 0.8])(
    'waits as the published formula says for a load of %f',
    (load) => {
      const { mean, within } = simulated(load)
      const published = meanWaitSec(load)
      console.info(
        `load ${load}: published ${published.toFixed(2)} s, simulated ${mean.toFixed(2)} s, 95 % interval +-${within.toFixed(2)} s`,
      )
      expect(Math.abs(mean - published)).toBeLessThanOrEqual(within)
      expect(within).toBeLessThan(0.05 * published)
    },
    60_000,
  )
})
