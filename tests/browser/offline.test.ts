import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launch } from '../support/chromium.ts'
import { SLOW_MS } from '../support/desk-folder.ts'
import { sendAway } from './offline-runs.ts'
import { FieldService } from './offline-service.ts'

const RUNS = 30
const SEED = Number(process.env.SEED ?? 20261217)
const service = new FieldService()
let browser: Browser

beforeAll(async () => {
  await service.start()
  browser = await launch()
}, SLOW_MS)
afterAll(async () => {
  await browser?.close()
  await service.end()
})

describe('a phone out of reach for ten seconds to half an hour', () => {
  it(`loses nothing and doubles nothing, whatever becomes of its page (${RUNS} times, SEED=${SEED})`, async () => {
    const report = await sendAway(browser, service, RUNS, SEED)
    expect(report.taps).toBeGreaterThanOrEqual(RUNS)
    expect(report.late).toBe(0)
    console.log(`SEED=${SEED}: ${JSON.stringify(report)}`)
  })
})
