import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launch, signIn } from '../support/chromium.ts'
import { type Demo, startDemo } from '../support/demo.ts'

let demo: Demo
let browser: Browser
let context: BrowserContext
let page: Page
let night = ''
let stations: string[] = []

beforeAll(async () => {
  demo = await startDemo()
  browser = await launch()
  context = await browser.newContext({ viewport: { width: 390, height: 844 } })
  await signIn(context, demo.url, demo.pin)
  page = await context.newPage()
  const { nights } = await (await context.request.get(`${demo.url}/api/nights`)).json()
  const found = nights.find(({ date }: { date: string }) => date === '2026-12-17')
  night = found.id
  stations = found.stations.map(({ id }: { id: string }) => id)
})
afterAll(async () => {
  await browser?.close()
  await demo?.stop()
})

const marks = async (): Promise<{ kind: string; key: string; stationId: string }[]> =>
  (await (await context.request.get(`${demo.url}/api/nights/${night}/marks`)).json()).marks

const status = (): Promise<string | null> => page.textContent('[data-status]')

/** Longer than the time in which a second tap counts as the same. */
const settle = (): Promise<void> => page.waitForTimeout(700)

describe('an operator with a phone', () => {
  it('marks without leaving the page, and takes it back', async () => {
    await page.goto(`${demo.url}/field/${night}/${stations[0]}`)
    await page.evaluate('window.isTheSamePage = true')
    await page.click('button:has-text("Shown:")')
    await page.waitForSelector('text=Kept.')
    expect((await marks()).map(({ kind }) => kind)).toEqual(['shown'])
    expect(await page.textContent('.now .target')).toBe('Nothing is planned now')

    await settle()
    await page.click('button:has-text("Undo")')
    await page.waitForSelector('button:has-text("Shown:")')
    expect((await marks()).map(({ kind }) => kind)).toEqual(['shown', 'undo'])
    expect(await page.evaluate('window.isTheSamePage')).toBe(true)
  })

  it('keeps a tap in the phone while the laptop is out of reach, and delivers it once', async () => {
    const before = (await marks()).length
    await settle()
    await context.setOffline(true)
    await page.click('button:has-text("Shown:")')
    await page.waitForSelector('text=Waiting for the laptop')
    await settle()
    await context.setOffline(false)
    await page.waitForSelector('text=Kept.', { timeout: 15_000 })
    const after = await marks()
    expect(after).toHaveLength(before + 1)
    expect(new Set(after.map(({ key }) => key)).size).toBe(after.length)
    expect(await status()).toBe('Kept.')
  })

  it('counts two taps in quick succession as one', async () => {
    await page.goto(`${demo.url}/field/${night}/${stations[1]}`)
    const before = (await marks()).length
    await page.dblclick('button:has-text("Shown:")')
    await page.waitForSelector('text=Kept.')
    await settle()
    expect(await marks()).toHaveLength(before + 1)
  })
})

describe('a phone without scripts', () => {
  it('marks by plain forms, skips with a reason, and comes back to the same page', async () => {
    const plain = await browser.newContext({ javaScriptEnabled: false, viewport: { width: 390, height: 844 } })
    await signIn(plain, demo.url, demo.pin)
    const phone = await plain.newPage()
    const address = `${demo.url}/field/${night}/${stations[2]}`
    await phone.goto(address)
    await phone.click('summary')
    await phone.click('button:text-is("Cloud")')
    expect(phone.url()).toBe(address)
    expect((await marks()).at(-1)).toMatchObject({ kind: 'skipped', stationId: stations[2] })
    await plain.close()
  })
})
