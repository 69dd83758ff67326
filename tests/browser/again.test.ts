import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { typeset } from '../../server/web/typeset.ts'
import { complaintsOf, launch, PICTURES, signIn } from '../support/chromium.ts'
import { type Demo, startDemo } from '../support/demo.ts'
import { faultsOf } from '../support/field-checks.ts'
import { SCROLL_WIDTH } from '../support/in-page.ts'

const WIDE = { width: 1280, height: 900 }
const PHONE = { width: 390, height: 844 }
const NARROW = { width: 320, height: 640 }
const WEST = ['w', 'nw', 'sw']

let demo: Demo
let browser: Browser
let context: BrowserContext
let page: Page
let path = ''

beforeAll(async () => {
  demo = await startDemo()
  browser = await launch()
  context = await browser.newContext({ viewport: WIDE })
  await signIn(context, demo.url, demo.pin)
  page = await context.newPage()
  const { nights } = await (await context.request.get(`${demo.url}/api/nights`)).json()
  path = `/nights/${nights.find(({ date }: { date: string }) => date === '2026-12-17').id}`
})
afterAll(async () => {
  await browser?.close()
  await demo?.stop()
})

const again = async () => (await context.request.get(`${demo.url}/api${path}/again`)).json()
const open = (end: string) => page.goto(`${demo.url}${path}${end}`)

describe('a host on whose night clouds come up in the west', () => {
  it('ticks what is shut, and is led to old beside new', async () => {
    const complaints = complaintsOf(page, demo.url)
    await open('')
    await page.click('.night-links a:text-is("Change of plan")')
    for (const part of WEST) await page.check(`input[name="shut.${part}"]`)
    await page.selectOption('select[name=minutes]', 'open')
    expect(await faultsOf(page)).toEqual([])
    await Promise.all([
      page.waitForURL(({ hash }) => hash === '#new'),
      page.click('button:text-is("Make the programme again")'),
    ])
    expect(await page.isVisible('input[name="shut.w"]')).toBe(false)
    expect(await page.textContent('.again-summary')).toContain('Behind clouds until the host says that it is clear')
    expect(complaints).toEqual([])
    page.removeAllListeners()
  })

  it('reads it beside each other on the laptop, and one below the other on a phone', async () => {
    const columns = page.locator('.again-columns').first().locator('> div')
    const boxes = async () => [await columns.nth(0).boundingBox(), await columns.nth(1).boundingBox()]
    const [oldWide, newWide] = await boxes()
    expect(newWide?.y).toBe(oldWide?.y)
    expect(newWide?.x).toBeGreaterThan(oldWide?.x ?? Number.NaN)
    expect(await faultsOf(page)).toEqual([])
    await page.screenshot({ path: join(PICTURES, 'again-waits-wide.png'), fullPage: true })
    await page.setViewportSize(PHONE)
    const [oldNarrow, newNarrow] = await boxes()
    expect(newNarrow?.x).toBe(oldNarrow?.x)
    expect(newNarrow?.y).toBeGreaterThan(oldNarrow?.y ?? Number.NaN)
    await page.screenshot({ path: join(PICTURES, 'again-waits-phone.png'), fullPage: true })
    await page.setViewportSize(NARROW)
    expect(await page.evaluate<number>(SCROLL_WIDTH)).toBeLessThanOrEqual(NARROW.width)
    await page.setViewportSize(WIDE)
  })

  it('keeps the old one, has a new one made, goes by it, and every telescope is told', async () => {
    const { waitingVersion: dropped } = await again()
    await page.click('button:text-is("Keep the old one")')
    await page.waitForSelector('text=No new programme waits.')
    expect((await again()).waitingVersion).toBeNull()
    await Promise.all([
      page.waitForURL(({ hash }) => hash === '#new'),
      page.click('button:text-is("Make the programme again")'),
    ])
    const { version, waitingVersion, changes } = await again()
    expect([version, waitingVersion]).toEqual([1, dropped + 1])
    await Promise.all([
      page.waitForURL(({ pathname }) => pathname.endsWith('/programme')),
      page.click('button:text-is("Go by the new one")'),
    ])
    expect(await again()).toMatchObject({ version: waitingVersion, waitingVersion: null, changes: null })
    for (const { stationName, spans } of changes) {
      const [{ after }] = spans.slice(-1)
      const section = page
        .locator('.by-telescope > section')
        .filter({ has: page.locator('h2', { hasText: stationName }) })
      expect(await section.textContent()).toContain(typeset(after.targetName))
    }
  })
})

describe('a laptop without scripts', () => {
  it('tells that a telescope is out by a plain form', async () => {
    const plain = await browser.newContext({ javaScriptEnabled: false, viewport: WIDE })
    await signIn(plain, demo.url, demo.pin)
    const laptop = await plain.newPage()
    await laptop.goto(`${demo.url}${path}/again`)
    await laptop.check('label:has-text("Big reflector") input')
    await laptop.click('button:text-is("Make the programme again")')
    await laptop.waitForURL(({ hash }) => hash === '#new')
    expect(await laptop.textContent('.again-known')).toContain('Out of the row: Big reflector.')
    await plain.close()
  })
})
