import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { SLOW_MS } from '../support/desk-folder.ts'
import { faultsOfNight, timesOf } from '../support/odd-clock-faults.ts'
import { oddClockRound, oddestMoment } from '../support/odd-clock-round.ts'
import { ODD_NIGHTS } from '../support/odd-clocks.ts'

/** Three of them here; every one of them, at more moments and with the year of dates, is asked in the long run. */
const SHORT = ODD_NIGHTS.slice(0, 3)
const YEARS = /^(\/api)?\/(dates|objects)\?/

let round: Awaited<ReturnType<typeof oddClockRound>>
beforeAll(async () => {
  round = await oddClockRound()
}, SLOW_MS)
afterAll(() => round.close())

describe.each(SHORT.map((odd) => [odd.name, odd] as const))('every page of the night of %s', (_name, odd) => {
  it('makes sense, says why there is no dark, and tells the time as the clocks of the site do', async () => {
    const visited = await round.visit(odd)
    round.clock.moveTo(oddestMoment(visited.night).toISOString())
    expect(visited.addresses.length).toBeGreaterThan(60)
    expect(await faultsOfNight(visited, YEARS)).toEqual([])
    const { said, expected } = await timesOf(visited)
    expect(said).toEqual(expected)
    expect(said.setUp.length).toBeGreaterThan(7)
  })
})
