import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
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

describe('a tap that is not answered as it should be', () => {
  const POSTED = '**/api/nights/*/marks'
  const shown = (): Promise<void> => page.click('button:has-text("Shown:")')
  const keptOnce = async (before: number): Promise<void> => {
    await page.waitForSelector('text=Kept.', { timeout: 15_000 })
    const keys = (await marks()).map(({ key }) => key)
    expect(keys).toHaveLength(before + 1)
    expect(new Set(keys).size).toBe(keys.length)
  }
  beforeEach(async () => {
    await page.goto(`${demo.url}/field/${night}/${stations[0]}`)
    if (await page.isHidden('button:has-text("Shown:")')) await page.click('button:has-text("Undo")')
    await page.waitForSelector('button:has-text("Shown:")')
    await settle()
  })

  it.each([
    ['that it must sign in', 403, 'application/json', '{}', 'before somebody signs in again'],
    ['that it is no address of the laptop', 421, 'application/json', '{}', 'no longer answers to the address'],
    ['with the page of a café', 200, 'text/html', '<h1>Welcome</h1>', 'Waiting for the laptop'],
    ['of another laptop', 200, 'application/json', '{"kept": []}', 'Waiting for the laptop'],
    ['that the disk is full', 507, 'application/json', '{}', 'Waiting for the laptop'],
    ['that the night is gone', 404, 'application/json', '{}', 'Waiting for the laptop'],
    ['too large', 413, 'application/json', '{}', 'Waiting for the laptop'],
    ['refused without a word why', 422, 'application/json', '{}', 'Waiting for the laptop'],
  ])('is kept and counted, and delivered once: answered %s (%i)', async (_what, status, contentType, body, said) => {
    const before = (await marks()).length
    await page.route(POSTED, (route) => route.fulfill({ status, contentType, body }))
    await shown()
    await page.waitForSelector(`[data-status]:has-text("${said}"):has-text(": 1.")`)
    expect(await marks()).toHaveLength(before)
    await page.unroute(POSTED)
    await keptOnce(before)
  })

  it('waits for the host to sign in again, leads there, and is delivered once', async () => {
    const before = (await marks()).length
    const out = await context.request.delete(`${demo.url}/api/session`, { headers: { origin: demo.url } })
    expect(out.status()).toBe(204)
    await shown()
    await page.waitForSelector('[data-status]:has-text("Safe in this phone until then: 1.")')
    await page.waitForSelector('text=You can read here')
    expect(await status()).toContain('1.')
    await page.click('[data-status] a')
    await page.fill('input[name=pin]', demo.pin)
    await page.click('main button')
    await keptOnce(before)
    expect(page.url()).toBe(`${demo.url}/field/${night}/${stations[0]}`)
  })

  it('is set apart with its reason when it is refused, while the good one beside it is kept', async () => {
    const before = (await marks()).length
    await context.setOffline(true)
    await page.evaluate(`document.querySelector('.acts input[name=targetKey]').value = 'nothing-such'`)
    await page.click('.acts button')
    await page.waitForSelector('[data-status]:has-text(": 1.")')
    await settle()
    await shown()
    await page.waitForSelector('[data-status]:has-text(": 2.")')
    await context.setOffline(false)
    await page.waitForSelector('text=The laptop did not take every tap', { timeout: 15_000 })
    expect(await marks()).toHaveLength(before + 1)
    await page.reload()
    expect(await page.textContent('[data-refused] li')).toMatch(
      /^Now showing: .+This is not on the list of things to show/,
    )
    await page.click('button:has-text("Drop “Now showing:")')
    expect(await page.isVisible('[data-refused]')).toBe(false)
    await page.reload()
    expect(await page.isVisible('[data-refused]')).toBe(false)
  })

  it('is set apart too when nothing sent with it can be kept', async () => {
    const before = (await marks()).length
    await page.evaluate(`document.querySelector('.acts input[name=targetKey]').value = 'nothing-such'`)
    await page.click('.acts button')
    await page.waitForSelector('[data-refused] li:has-text("This is not on the list of things to show")')
    expect(await marks()).toHaveLength(before)
    await page.click('button:has-text("Drop “")')
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
