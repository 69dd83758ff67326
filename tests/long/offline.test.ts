import { existsSync } from 'node:fs'
import type { Browser } from 'playwright-core'
import { expect, it } from 'vitest'
import { sendAway } from '../browser/offline-runs.ts'
import { FieldService } from '../browser/offline-service.ts'
import { awayCrowd } from '../support/away-crowd.ts'
import { CHROMIUM, launch } from '../support/chromium.ts'
import { recordRow } from '../support/fault-rows.ts'

const RUNS = Number(process.env.RUNS ?? 500)
const LEAST_RUNS = 500
/** After so many times a night has about as many marks as the fullest evening, and another night begins. */
const RUNS_A_NIGHT = 50
const IN_CHROMIUM = 3
const ON_SOCKETS = 37
const SEED = Number(process.env.SEED ?? 20261217)
const isThere = existsSync(CHROMIUM)
if (!isThere) console.log(`Left out: phones out of reach, since there is no Chromium at ${CHROMIUM}`)

interface NightSeen {
  readonly runs: number
  readonly slowestMs: number
  readonly late: number
  readonly repeated: number
  readonly missed: number
}

it.skipIf(!isThere)(`a crowd that was out of reach catches up (${RUNS} times, SEED=${SEED})`, async () => {
  const browser = await launch()
  const nights: NightSeen[] = []
  try {
    for (let done = 0; done < RUNS; done += RUNS_A_NIGHT) {
      nights.push(await nightOf(browser, Math.min(RUNS_A_NIGHT, RUNS - done), SEED + done))
      console.log(`${Math.min(done + RUNS_A_NIGHT, RUNS)} of ${RUNS} times: ${JSON.stringify(nights.at(-1))}`)
    }
  } finally {
    await browser.close()
  }
  const sum = (of: 'runs' | 'late' | 'repeated' | 'missed'): number => nights.reduce((n, night) => n + night[of], 0)
  const slowestMs = Math.max(...nights.map((night) => night.slowestMs))
  const [runs, late, missed, repeated] = [sum('runs'), sum('late'), sum('missed'), sum('repeated')]
  recordRow({
    row: 7,
    reached: `${runs} times, ${IN_CHROMIUM} phones in Chromium and ${ON_SOCKETS} on sockets, equal within ${slowestMs} ms, ${late} times late (those that only ask: with what was before their return, and with the rest at their next asking), ${missed} missed, ${repeated} repeated`,
    isReached: runs >= LEAST_RUNS && late + missed + repeated === 0,
    seed: SEED,
    count: runs,
  })
  expect(runs).toBe(RUNS)
  expect({ repeated, missed }).toEqual({ repeated: 0, missed: 0 })
})

/** A night of its own on which the crowd is out of reach so many times. */
async function nightOf(browser: Browser, runs: number, seed: number): Promise<NightSeen> {
  const service = new FieldService()
  await service.start()
  const crowd = await awayCrowd(service, ON_SOCKETS, seed)
  try {
    const { slowestMs, late } = await sendAway(browser, service, runs, seed, crowd)
    return { runs, slowestMs, late, ...crowd.faults() }
  } finally {
    crowd.end()
    await service.end()
  }
}
