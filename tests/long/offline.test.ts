import { existsSync } from 'node:fs'
import { expect, it } from 'vitest'
import { sendAway } from '../browser/offline-runs.ts'
import { FieldService } from '../browser/offline-service.ts'
import { awayCrowd } from '../support/away-crowd.ts'
import { CHROMIUM, launch } from '../support/chromium.ts'
import { recordRow } from '../support/fault-rows.ts'

const RUNS = Number(process.env.RUNS ?? 500)
const LEAST_RUNS = 500
const IN_CHROMIUM = 3
const ON_SOCKETS = 37
const SEED = Number(process.env.SEED ?? 20261217)
const isThere = existsSync(CHROMIUM)
if (!isThere) console.log(`Left out: phones out of reach, since there is no Chromium at ${CHROMIUM}`)

it.skipIf(!isThere)(`a crowd that was out of reach catches up (${RUNS} times, SEED=${SEED})`, async () => {
  const service = new FieldService()
  await service.start()
  const browser = await launch()
  const crowd = await awayCrowd(service, ON_SOCKETS, SEED)
  try {
    const report = await sendAway(browser, service, RUNS, SEED, crowd)
    const { runs, slowestMs, late } = report
    const { repeated, missed } = crowd.faults()
    recordRow({
      row: 7,
      reached: `${runs} times, ${IN_CHROMIUM} phones in Chromium and ${ON_SOCKETS} on sockets, equal within ${slowestMs} ms, ${late} times late (those that only ask: with what was before their return, and with the rest at their next asking), ${missed} missed, ${repeated} repeated`,
      isReached: runs >= LEAST_RUNS && late + missed + repeated === 0,
      seed: SEED,
      count: runs,
    })
    console.log(
      `SEED=${SEED}: ${JSON.stringify({ ...report, absent: crowd.absent, requests: crowd.requests(), repeated, missed })}`,
    )
    expect(report.runs).toBe(RUNS)
    expect({ repeated, missed }).toEqual({ repeated: 0, missed: 0 })
  } finally {
    crowd.end()
    await browser.close()
    await service.end()
  }
})
