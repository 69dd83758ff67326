import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { buildApp } from '../../server/app.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { readWordTables } from '../../server/web/language.ts'
import { launch, signIn } from '../support/chromium.ts'
import { freshFolder, openDesk, removeFolder, standingClock } from '../support/desk-folder.ts'

const POSTED = '**/api/nights/*/marks'
const folder = freshFolder()
const clock = standingClock('2026-12-17T17:20:00Z')
const words = readWordTables()
let browser: Browser
let page: Page
let desk: Desk
let port = 0
let nightId = ''
let stop = async (): Promise<unknown> => undefined

/** Starts the service on the folder with no PIN said, at the same port each time. */
async function start(): Promise<string> {
  desk = await openDesk(folder, { pin: null, clock })
  const app = await buildApp({ desk, clock, words, allowedHosts: () => new Set([`127.0.0.1:${port}`]) })
  const url = await app.listen({ port, host: '127.0.0.1' })
  port = Number(new URL(url).port)
  stop = async () => {
    await app.close()
    await desk.close()
  }
  return url
}

beforeAll(async () => {
  const url = await start()
  const night = seedEvening(desk, north)
  nightId = night.id
  const stationId = night.stations[0]?.id ?? null
  const payload = { targetKey: 'saturn', aim: 'whole' }
  desk.marks.record(nightId, [{ key: 'first-act', kind: 'showing', stationId, payload, secondsAgo: 0 }], 'host', 'host')
  browser = await launch()
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } })
  await signIn(context, url, desk.sessions.newPin ?? '')
  page = await context.newPage()
  await page.goto(`${url}/field/${nightId}/${stationId}`)
})
afterAll(async () => {
  await browser?.close()
  await stop()
  removeFolder(folder)
})

describe('a phone whose page stays open while the laptop starts anew', () => {
  it('delivers once the tap whose answer was lost, under the same session and another epoch', async () => {
    const [epoch] = desk.marks.version(nightId).split('.')
    await page.route(POSTED, async (route) => {
      await route.fetch()
      await route.abort()
    })
    await page.click('#skip summary')
    await page.click('button:has-text("It is over:")')
    await page.waitForSelector('[data-status]:has-text("1 mark waiting for the laptop")')
    const before = desk.marks.since(nightId, 0)
    expect(before.map(({ kind }) => kind)).toEqual(['showing', 'shown'])
    await stop()
    await page.unroute(POSTED)
    await start()
    expect(desk.sessions.newPin).toBeNull()
    expect(desk.marks.version(nightId)).not.toContain(epoch)
    await page.waitForSelector('text=Kept.', { timeout: 30_000 })
    expect(desk.marks.since(nightId, 0)).toEqual(before)
  })

  it('delivers once the tap that was made while the laptop was off', async () => {
    await page.click('#take-back summary')
    await stop()
    await page.click('#take-back button')
    await page.waitForSelector('[data-status]:has-text("Safe in this phone: 1.")')
    await start()
    await page.waitForSelector('text=Kept.', { timeout: 30_000 })
    expect(desk.marks.since(nightId, 0).map(({ kind }) => kind)).toEqual(['showing', 'shown', 'undo'])
  })
})
