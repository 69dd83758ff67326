import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { nightHours } from '../../server/tours/hours.ts'
import { SLOW_MS } from '../support/desk-folder.ts'
import { faultsOfNight, timesOf } from '../support/odd-clock-faults.ts'
import { oddClockRound, oddestMoment } from '../support/odd-clock-round.ts'
import { ODD_NIGHTS } from '../support/odd-clocks.ts'

const HOUR_MS = 3_600_000
const NOTHING = /^$/

let round: Awaited<ReturnType<typeof oddClockRound>>
beforeAll(async () => {
  round = await oddClockRound()
}, SLOW_MS)
afterAll(() => round.close())

describe.each(ODD_NIGHTS.map((odd) => [odd.name, odd] as const))('every page of the night of %s', (_name, odd) => {
  it('makes sense before the doors open, under way and after they have closed', async () => {
    const visited = await round.visit(odd)
    const { opensAt, closesAt } = nightHours(visited.night)
    const moments = [
      new Date(opensAt.getTime() - HOUR_MS),
      oddestMoment(visited.night),
      new Date(closesAt.getTime() + HOUR_MS),
    ]
    for (const at of moments) {
      round.clock.moveTo(at.toISOString())
      expect(await faultsOfNight(visited, NOTHING), at.toISOString()).toEqual([])
    }
    const { said, expected } = await timesOf(visited)
    expect(said).toEqual(expected)
  })
})
