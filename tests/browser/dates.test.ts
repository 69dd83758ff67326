import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launch, signIn } from '../support/chromium.ts'
import { type Demo, startDemo } from '../support/demo.ts'
import { faultsOf } from '../support/field-checks.ts'
import { SCROLL_WIDTH } from '../support/in-page.ts'

const UNFINISHED = '[data-unfinished]'
const WIDTHS = [1200, 390, 320]
const YEAR_MS = 60_000

let demo: Demo
let browser: Browser
let context: BrowserContext
let page: Page

beforeAll(async () => {
  demo = await startDemo()
  browser = await launch()
  context = await browser.newContext()
  await signIn(context, demo.url, demo.pin)
  page = await context.newPage()
})
afterAll(async () => {
  await browser?.close()
  await demo?.stop()
})

const days = () => page.locator('.year-month td a').count()

describe('the year of dates', () => {
  it('fills itself, and what was opened meanwhile stays open', async () => {
    await page.goto(`${demo.url}/dates?from=2027-01`)
    await page.locator('#month-2027-02 > summary').click()
    await page.waitForSelector(UNFINISHED, { state: 'detached', timeout: YEAR_MS })
    expect(await days()).toBe(365)
    expect(await page.locator('#month-2027-02').getAttribute('open')).not.toBeNull()
    expect(await page.locator('#month-2027-02 tbody tr').count()).toBe(28)
  })

  it('has every month folded, and unfolds one from its name in the year', async () => {
    await page.goto(`${demo.url}/dates?from=2027-01`)
    expect(await page.locator('.nights[open]').count()).toBe(0)
    await page.getByRole('link', { name: 'March 2027', exact: true }).click()
    await page.waitForSelector('#month-2027-03[open]')
  })

  it('shows without scripts what there is, and the way to look again', async () => {
    const plain = await browser.newContext({ javaScriptEnabled: false })
    const read = await plain.newPage()
    await read.goto(`${demo.url}/dates?from=2029-01`)
    const again = read.locator('.dates-progress a')
    for (let looks = 0; looks < 100 && (await again.count()) > 0; looks++) await again.click()
    expect(await read.locator('.year-month td a').count()).toBe(365)
    await plain.close()
  })

  it('goes from a day to its night, and from there into the form of a new one', async () => {
    await page.goto(`${demo.url}/dates?from=2027-01`)
    await page.locator('.dates-clean a').first().click()
    await page.getByRole('link', { name: 'Plan a night on this date' }).click()
    expect(await page.inputValue('[name=date]')).toMatch(/^2027-/)
    expect(await page.inputValue('[name="stations.0.name"]')).not.toBe('')
  })

  it('keeps what was typed wrong into the rules, and says so in a sentence', async () => {
    await page.goto(`${demo.url}/dates`)
    await page.locator('.dates-rules > summary').click()
    await page.getByRole('link', { name: 'Change these rules' }).click()
    await page.fill('[name=club]', 'every second Tuesday')
    await page.getByRole('button', { name: 'Keep these rules' }).click()
    expect(await page.locator('[data-problems]').textContent()).toContain('Line 1 (“every second Tuesday”)')
    expect(await page.inputValue('[name=club]')).toBe('every second Tuesday')
    await page.fill('[name=club]', '2027-01-15 Club evening')
    await page.getByRole('button', { name: 'Keep these rules' }).click()
    await page.goto(`${demo.url}/dates/2027-01-15`)
    expect(await page.locator('.is-broken').allTextContents()).toEqual([expect.stringContaining('Club evening')])
  })

  it.each(WIDTHS)('is no wider than the window at %i px, and barred to nobody', async (width) => {
    await page.setViewportSize({ width, height: 900 })
    for (const path of ['/dates?from=2027-01', '/dates/2027-06-18']) {
      await page.goto(`${demo.url}${path}`)
      await page.waitForSelector(UNFINISHED, { state: 'detached', timeout: YEAR_MS })
      expect(await page.evaluate(SCROLL_WIDTH), path).toBeLessThanOrEqual(width)
      expect(await faultsOf(page)).toEqual([])
    }
  })
})
