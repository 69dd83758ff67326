import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { brightness, complaintsOf, launch, PICTURES } from '../support/chromium.ts'
import { SLOW_MS } from '../support/desk-folder.ts'
import { faultsOf, lowestPx, smallestTextPx } from '../support/field-checks.ts'
import { SCROLL_WIDTH } from '../support/in-page.ts'
import { FieldService } from './offline-service.ts'

const IN_THE_EVENING = '2026-12-17T17:40:00Z'
const PHONE = { width: 390, height: 844 }
const NARROW = { width: 320, height: 844 }
const WIDE = { width: 1200, height: 900 }
const LOOKS = ['day', 'lamp'] as const

const service = new FieldService()
let browser: Browser
let context: BrowserContext
let page: Page
let address = ''

beforeAll(async () => {
  await service.start()
  browser = await launch()
  context = await browser.newContext({ viewport: PHONE })
  page = await context.newPage()
  address = `${service.url}/tonight/${service.night.id}`
}, SLOW_MS)
afterAll(async () => {
  await browser?.close()
  await service.end()
})

const tick = (at: number) => page.locator('[data-seen]').nth(at)
const listed = () => page.locator('[data-seen-text]')

describe('the visitors’ page on a phone of the field', () => {
  it.each(LOOKS)(
    'works by name, without a session and a secure context, with nothing to complain of in the %s look',
    async (look) => {
      const complaints = complaintsOf(page, service.url)
      await page.goto(`${address}?look=${look}`)
      expect(await page.evaluate('isSecureContext')).toBe(false)
      expect(await page.locator('form').count()).toBe(0)
      await tick(0).click()
      await listed().waitFor()
      expect(await faultsOf(page)).toEqual([])
      expect(complaints).toEqual([])
      await page.click('[data-seen-forget]')
    },
  )

  it('is light by itself, and stays by the lamp once that was chosen', async () => {
    const fresh = await browser.newContext({ viewport: PHONE })
    const phone = await fresh.newPage()
    const look = () => phone.evaluate<string>('document.documentElement.dataset.look')
    await phone.goto(address)
    expect(await look()).toBe('day')
    await phone.click('a:text-is("Red lamp look")')
    expect(await look()).toBe('lamp')
    await phone.goto(address)
    expect(await look()).toBe('lamp')
    await fresh.close()
  })

  it('holds no green or blue in the lamp look, with something seen', async () => {
    await page.goto(`${address}?look=lamp`)
    await tick(0).click()
    const { red, greenOrBlue } = await brightness(page)
    expect(red).toBeGreaterThan(200)
    expect(greenOrBlue).toBeLessThanOrEqual(8)
    await page.screenshot({ path: join(PICTURES, 'tonight-lamp.png'), fullPage: true })
    await page.click('[data-seen-forget]')
  })

  it.each([
    ['the narrowest phone', NARROW],
    ['a laptop', WIDE],
  ])('needs no sideways scrolling on %s, and its acts and words are large', async (_what, viewport) => {
    await page.setViewportSize(viewport)
    await page.goto(`${address}?look=day`)
    await tick(0).click()
    expect(await page.evaluate<number>(SCROLL_WIDTH)).toBeLessThanOrEqual(viewport.width)
    expect(await lowestPx(page, 'main button, .tonight-first a')).toBeGreaterThanOrEqual(64)
    expect(await smallestTextPx(page)).toBeGreaterThanOrEqual(18)
    await page.screenshot({ path: join(PICTURES, `tonight-${viewport.width}.png`), fullPage: true })
    await page.click('[data-seen-forget]')
    await page.setViewportSize(PHONE)
  })
})

describe('what a visitor has seen', () => {
  it('is kept in this phone over a reload, told in one sentence, and sent to nobody', async () => {
    const sent: string[] = []
    page.on('request', (request) => void (request.method() === 'GET' || sent.push(request.url())))
    await page.goto(address)
    const names = await page.locator('article h3').allTextContents()
    await tick(0).click()
    expect(await listed().textContent()).toBe(`You have seen 1 thing tonight: ${names[0]}.`)
    await tick(2).click()
    await tick(1).click()
    await page.reload()
    expect(await listed().textContent()).toBe(`You have seen 3 things tonight: ${names[0]}, ${names[2]}, ${names[1]}.`)
    expect(await tick(1).textContent()).toBe(`Seen: ${names[1]}. Tap to take it back`)
    await tick(1).click()
    expect(await listed().textContent()).toBe(`You have seen 2 things tonight: ${names[0]}, ${names[2]}.`)
    expect(sent).toEqual([])
    expect(service.marks()).toEqual([])

    const other = await (await browser.newContext()).newPage()
    await other.goto(address)
    expect(await other.locator('[data-seen-list]').isVisible()).toBe(false)
    await other.context().close()
  })

  it('is no longer where to go first', async () => {
    await page.goto(address)
    const ways = page.locator('.tonight-first li')
    const key = await ways.first().getAttribute('data-first')
    await page.click('[data-seen-forget]')
    expect(await ways.first().isVisible()).toBe(true)
    await page.click(`[data-seen="${key}"]`)
    expect(await ways.first().isVisible()).toBe(false)
    await page.click('[data-seen-forget]')
    expect(await page.locator('[data-seen-list]').isVisible()).toBe(false)
  })
})

describe('a page that stays open', () => {
  it('shows by itself what a telescope turns to, with a button of its own', async () => {
    await page.goto(address)
    const stationId = service.night.stations[1]?.id ?? null
    const payload = { targetKey: 'm31', aim: 'whole' }
    await service.record({ key: 'turned-to-m31', kind: 'showing', stationId, payload })
    await page.locator('article h3:text-is("Andromeda Galaxy")').waitFor({ timeout: 40_000 })
    await page.click('[data-seen="m31"]')
    expect(await listed().textContent()).toBe('You have seen 1 thing tonight: Andromeda Galaxy.')
    await page.click('[data-seen-forget]')
  }, 60_000)

  it('says that the line is closed when its time has come', async () => {
    service.clock.moveTo('2026-12-17T19:58:00Z')
    await page.reload()
    expect(await page.locator('.tonight-line').allTextContents()).toContainEqual(
      expect.stringContaining('The line is closed'),
    )
    expect(await page.locator('.tonight-first').count()).toBe(0)
    service.clock.moveTo(IN_THE_EVENING)
  })
})

describe('a phone without scripts', () => {
  it('reads it all but for the ticks, and comes to a station from where to go first', async () => {
    const plain = await browser.newContext({ javaScriptEnabled: false, viewport: PHONE })
    const phone = await plain.newPage()
    await phone.goto(address)
    expect(await phone.locator('article').count()).toBe(service.night.stations.length)
    expect(await phone.locator('[data-seen]').first().isVisible()).toBe(false)
    await phone.locator('.tonight-first a').first().click()
    expect(phone.url()).toMatch(/#station-/)
    await plain.close()
  })
})
