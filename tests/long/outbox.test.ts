import { existsSync } from 'node:fs'
import { expect, it } from 'vitest'
import { sendAway } from '../browser/offline-runs.ts'
import { FieldService } from '../browser/offline-service.ts'
import { CHROMIUM, launch } from '../support/chromium.ts'
import { recordRow } from '../support/fault-rows.ts'

const LEAST_RUNS = 300
const RUNS = Number(process.env.RUNS ?? LEAST_RUNS)
const SEED = Number(process.env.SEED ?? 20261217)
const isThere = existsSync(CHROMIUM)
if (!isThere) console.log(`Left out: what waits on a phone, since there is no Chromium at ${CHROMIUM}`)

it.skipIf(!isThere)(`what waits on a phone outlives its page (${RUNS} times, SEED=${SEED})`, async () => {
  const service = new FieldService()
  await service.start()
  const browser = await launch()
  try {
    const report = await sendAway(browser, service, RUNS, SEED)
    const { runs, taps, slowestMs, late } = report
    recordRow({
      row: 9,
      reached: `${runs} runs, ${taps} taps, 0 lost, 0 doubled, all phones equal within ${slowestMs} ms, ${late} times late`,
      isReached: runs >= LEAST_RUNS && late === 0,
      seed: SEED,
      count: runs,
    })
    console.log(`SEED=${SEED}: ${JSON.stringify(report)}`)
    expect(report.runs).toBe(RUNS)
  } finally {
    await browser.close()
    await service.end()
  }
})
