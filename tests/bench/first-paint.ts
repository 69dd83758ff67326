import { existsSync } from 'node:fs'
import type { BrowserContext } from 'playwright-core'
import { CHROMIUM, launch } from '../support/chromium.ts'
import { type StationPage, withStation } from './field-bytes.ts'
import { medianOf } from './median.ts'

const OPENINGS = 7
const ASKED_PAINT_MS = 1_000
/** A slow phone on a slow network: its processor, what comes and goes in bytes a second, and how long an answer is on its way. */
const CPU_TIMES_SLOWER = 4
const NETWORK = { offline: false, latency: 150, downloadThroughput: 1_600_000 / 8, uploadThroughput: 750_000 / 8 }
const PHONE = { viewport: { width: 390, height: 844 }, isMobile: true }

/** When a slow phone first shows something of the station page, each time with nothing kept from before, in milliseconds. */
const firstPaints = (): Promise<readonly number[]> =>
  withStation(async (station) => {
    const browser = await launch()
    try {
      const times: number[] = []
      for (let opening = 0; opening < OPENINGS; opening++) {
        const context = await browser.newContext(PHONE)
        times.push(await paintOf(context, station))
        await context.close()
      }
      return times
    } finally {
      await browser.close()
    }
  })

async function paintOf(context: BrowserContext, { port, path, cookie }: StationPage): Promise<number> {
  const url = `http://127.0.0.1:${port}`
  const [name = '', value = ''] = cookie.split('=')
  await context.addCookies([{ name, value, url }])
  const page = await context.newPage()
  const line = await context.newCDPSession(page)
  await line.send('Network.enable')
  await line.send('Network.emulateNetworkConditions', NETWORK)
  await line.send('Emulation.setCPUThrottlingRate', { rate: CPU_TIMES_SLOWER })
  await page.goto(url + path, { waitUntil: 'load' })
  const paintMs = await page.evaluate<number>(
    `new Promise((done) => new PerformanceObserver((list) => {
      for (const each of list.getEntries()) if (each.name === 'first-contentful-paint') done(each.startTime)
    }).observe({ type: 'paint', buffered: true }))`,
  )
  await page.close()
  return paintMs
}

export async function benchFirstPaint(): Promise<void> {
  if (!existsSync(CHROMIUM)) return console.log(`Left out: the first paint, since there is no Chromium at ${CHROMIUM}`)
  const times = await firstPaints()
  const [median, slowest] = [medianOf(times), Math.max(...times)].map((ms) => ms.toFixed(0))
  console.log(
    `the station page on a phone ${CPU_TIMES_SLOWER} times slower, at 1.6 Mbit/s and 150 ms: something to see after ` +
      `${median} ms in the middle of ${times.length} openings, ${slowest} ms at most (asked: under ${ASKED_PAINT_MS})`,
  )
}
