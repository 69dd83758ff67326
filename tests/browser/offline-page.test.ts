import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { launch } from '../support/chromium.ts'
import { SLOW_MS } from '../support/desk-folder.ts'
import { FieldPhone } from './offline-phone.ts'
import { FieldService } from './offline-service.ts'

const POSTED = '**/api/nights/*/marks'
const LIVE = '**/api/nights/*/live*'
const service = new FieldService(1)
let browser: Browser
let context: BrowserContext
let phone: FieldPhone
let page: Page

beforeAll(async () => {
  await service.start()
  browser = await launch()
}, SLOW_MS)
afterAll(async () => {
  await browser?.close()
  await service.end()
})
beforeEach(async () => {
  context = await browser.newContext({ viewport: { width: 390, height: 844 } })
  phone = await FieldPhone.join(service, context, 'Ada')
  page = phone.page
})
afterEach(() => context.close())

let taps = 0
/** An act of another phone. */
const actElsewhere = (): Promise<void> =>
  service.record({ key: `elsewhere-${++taps}`, kind: 'counted', stationId: null, payload: { adults: 1, children: 0 } })
const shownVersion = () => page.evaluate(`document.querySelector('[data-field]').dataset.version`)
const isCurrent = async () => (await shownVersion()) === service.version()
/** The requests from now on to addresses in which a text stands: those that were begun, and those that were broken off. */
function requestsTo(text: string): { readonly begun: readonly string[]; readonly ended: readonly string[] } {
  const [begun, ended]: [string[], string[]] = [[], []]
  page.on('request', (request) => request.url().includes(text) && begun.push(request.url()))
  page.on('requestfailed', (request) => request.url().includes(text) && ended.push(request.url()))
  return { begun, ended }
}

describe('a page of the field', () => {
  it('is no secure context, as on the network of the field', async () => {
    expect(await page.evaluate('window.isSecureContext')).toBe(false)
    expect(await page.evaluate('typeof crypto.randomUUID')).toBe('undefined')
  })

  it('says at once that a tap is taken, while the laptop is slow to answer', async () => {
    await page.route(POSTED, async (route) => {
      await new Promise((done) => setTimeout(done, 1_500))
      await route.continue()
    })
    const text = await phone.tap(0)
    expect(await phone.status()).toBe(`Taken: ${text.trim()}`)
    await expect.poll(phone.status, { timeout: 10_000 }).toBe('Kept.')
  })

  it('gives up an answer that does not come in eight seconds, and sends the tap again', async () => {
    const sent = requestsTo('/marks').begun
    await page.route(POSTED, () => {})
    await phone.tap(0)
    await phone.pass(8_100)
    await expect.poll(phone.status).toContain('1 mark waiting')
    const before = service.marks().length
    await page.unroute(POSTED)
    await phone.pass(2_100)
    await expect.poll(phone.status, { timeout: 10_000 }).toBe('Kept.')
    expect([service.marks().length - before, sent.length]).toEqual([1, 2])
  })

  it('shares what waits with a second page of the same phone', async () => {
    const second = await context.newPage()
    await second.goto(service.stationPage(1))
    await context.setOffline(true)
    const before = service.marks().length
    await phone.tap(0)
    await second.evaluate(`document.querySelector('form[data-act] button').click()`)
    await expect.poll(() => second.textContent('[data-status]')).toContain('2 marks waiting')
    await context.setOffline(false)
    await expect.poll(() => service.marks().length - before, { timeout: 10_000 }).toBe(2)
    await expect.poll(phone.status, { timeout: 10_000 }).toBe('Kept.')
    const stations = service
      .marks()
      .slice(before)
      .map(({ stationId }) => stationId)
    expect(new Set(stations).size).toBe(2)
  })

  it('sends a tap its plain way when the phone can keep nothing', async () => {
    await page.evaluate(`for (let i = 0, text = 'x'.repeat(1_000_000); i < 40; i++)
      try { localStorage.setItem('full-' + i, text) } catch { text = text.slice(0, text.length / 2) || 'x' }`)
    const before = service.marks().length
    await Promise.all([page.waitForNavigation(), phone.tap(0)])
    expect(service.marks().length - before).toBe(1)
    expect(page.url()).toBe(service.stationPage())
  })

  it('leads a phone that was removed to the joining, and delivers what it kept once it is in again', async () => {
    const before = service.marks().length
    for (const { id } of service.desk.joins.phones(service.night.id)) service.desk.joins.revoke(service.night.id, id)
    await phone.tap(0)
    await expect.poll(phone.status).toContain('Safe in this phone until you join again: 1.')
    expect(await page.getAttribute('[data-status] a', 'href')).toBe('/join')
    await service.join(context, 'Ada again')
    await phone.openPage()
    await expect.poll(() => service.marks().length - before, { timeout: 10_000 }).toBe(1)
  })

  it('offers again what the laptop has lost to a backup', async () => {
    await service.stop()
    const putBack = service.backUp()
    await service.start()
    const before = service.marks().map(({ key }) => key)
    await phone.tap(0)
    await expect.poll(phone.status, { timeout: 20_000 }).toBe('Kept.')
    const [lost] = service.marks().slice(before.length)
    await service.stop()
    putBack()
    await service.start()
    expect(service.marks().map(({ key }) => key)).toEqual(before)
    await expect.poll(() => service.marks().at(-1)?.key, { timeout: 30_000 }).toBe(lost?.key)
    expect(service.marks()).toHaveLength(before.length + 1)
  })
})

describe('a page that is kept current', () => {
  it('shows what others do within three seconds, and keeps open what its reader has opened', async () => {
    await page.click('#else summary')
    await page.fill('#else-query', 'satu')
    await page.evaluate('window.isTheSamePage = true')
    await actElsewhere()
    await expect.poll(isCurrent, { timeout: 3_000 }).toBe(true)
    expect(await page.isVisible('#else-query')).toBe(true)
    expect(await page.inputValue('#else-query')).toBe('satu')
    expect(await page.evaluate('document.activeElement.id')).toBe('else-query')
    expect(await page.evaluate('window.isTheSamePage')).toBe(true)
  })

  it('does not change under a finger', async () => {
    await page.mouse.move(5, 5)
    await page.mouse.down()
    await actElsewhere()
    await page.waitForTimeout(1_500)
    expect(await isCurrent()).toBe(false)
    await page.mouse.up()
    await expect.poll(isCurrent, { timeout: 3_000 }).toBe(true)
  })

  it('closes its stream when it is hidden, and is current again right after it is shown', async () => {
    const { begun: opened, ended: closed } = requestsTo('/live')
    const show = (isHidden: boolean) =>
      page.evaluate(`Object.defineProperty(document, 'hidden', { value: ${isHidden}, configurable: true })
        document.dispatchEvent(new Event('visibilitychange'))`)
    await show(true)
    await expect.poll(() => closed.length).toBe(1)
    const before = opened.length
    await actElsewhere()
    await phone.pass(60_000)
    expect([opened.length, await isCurrent()]).toEqual([before, false])
    await show(false)
    await expect.poll(isCurrent, { timeout: 3_000 }).toBe(true)
    expect(opened).toHaveLength(before + 1)
  })

  it('asks every few seconds where no stream comes through, and goes back to the stream', async () => {
    const asked = requestsTo('/changes').begun
    await page.route(LIVE, (route) => route.abort())
    await page.reload()
    for (let i = 0; i < 2; i++) await phone.pass(3_000)
    await expect.poll(() => asked.length).toBeGreaterThan(0)
    await actElsewhere()
    await phone.pass(6_000)
    await expect.poll(isCurrent, { timeout: 3_000 }).toBe(true)
    await page.unroute(LIVE)
    await phone.pass(18_000)
    await actElsewhere()
    await expect.poll(isCurrent, { timeout: 3_000 }).toBe(true)
    const count = asked.length
    await phone.pass(20_000)
    await page.waitForTimeout(300)
    expect(asked).toHaveLength(count)
  })

  it('is fetched anew at the half hours, by the clock of the evening', async () => {
    const fetched = requestsTo('/field/').begun
    await actElsewhere()
    await expect.poll(isCurrent, { timeout: 3_000 }).toBe(true)
    const before = fetched.length
    service.clock.moveTo('2026-12-17T18:00:00Z')
    await phone.pass(20 * 60_000 + 3_000)
    await expect.poll(() => fetched.length, { timeout: 3_000 }).toBeGreaterThan(before)
  })

  it('says when another plan holds, until it is looked at', async () => {
    const banner = () => page.isVisible('[data-new-plan]')
    expect(await banner()).toBe(false)
    const { id } = await service.desk.tours.build(service.night.id, { seed: 7, steps: 200 })
    await service.record({ key: 'accepted-1', kind: 'accepted', stationId: null, payload: { tourId: id } })
    await expect.poll(banner, { timeout: 5_000 }).toBe(true)
    await page.reload()
    expect(await banner()).toBe(true)
    await page.evaluate(
      `document.querySelector('[data-new-plan] a').addEventListener('click', (event) => event.preventDefault())`,
    )
    await page.click('[data-new-plan] a')
    expect(await banner()).toBe(false)
    await page.reload()
    expect(await banner()).toBe(false)
  })
})
