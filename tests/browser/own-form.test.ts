import type { Browser, BrowserContextOptions, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { launch } from '../support/chromium.ts'
import { pagedApp } from '../support/paged-app.ts'
import { asHost, HOST, type TestApp } from '../support/web.ts'

const FORM = 'application/x-www-form-urlencoded'
const NEW = `http://${HOST}/extras/new`
const WIDTH = '[name=majorArcmin]'
const WRONG = '[data-problems]'

let service: TestApp
let browser: Browser
beforeAll(async () => {
  service = await pagedApp()
  browser = await launch()
})
afterAll(async () => {
  await browser?.close()
  await service?.app.close()
})

/** A page of the host's own browser, answered without a port. */
async function hostPage(options: BrowserContextOptions = {}): Promise<Page> {
  const page = await (await browser.newContext(options)).newPage()
  await page.route('**/*', async (route) => {
    const { pathname, search } = new URL(route.request().url())
    const [url, payload] = [pathname + search, route.request().postData()]
    const sent =
      payload === null ? { url } : ({ url, method: 'POST', payload, headers: { 'content-type': FORM } } as const)
    const answer = await service.app.inject(asHost(sent))
    const contentType = String(answer.headers['content-type'] ?? 'text/plain')
    await route.fulfill({ status: answer.statusCode, contentType, body: answer.rawPayload })
  })
  return page
}

it('shows the fields of the chosen kind alone, and loses nothing that was typed for another', async () => {
  const page = await hostPage()
  await page.goto(NEW)
  await page.fill(WIDTH, 'wide')
  await page.fill('[name=name]', 'Our Ember')
  await page.selectOption('[name=kind]', 'star')
  expect(await page.isVisible(WIDTH)).toBe(false)
  await page.click('#form button')
  await page.waitForSelector(`${WRONG}:focus`)
  expect(await page.title()).toBe('Error: Enter a thing')
  expect(await page.locator(`${WRONG} li`).allTextContents()).not.toContainEqual(expect.stringContaining('Width'))
  expect(await page.isVisible(WIDTH)).toBe(false)
  await page.selectOption('[name=kind]', 'nebula')
  expect([await page.isVisible(WIDTH), await page.inputValue(WIDTH)]).toEqual([true, 'wide'])
})

it('leads a reader without scripts to what is wrong, too', async () => {
  const page = await hostPage({ javaScriptEnabled: false })
  await page.goto(NEW)
  await page.click('#form button')
  await page.waitForSelector(`${WRONG}:focus`)
  expect(await page.locator(`${WRONG} li`).first().textContent()).toBe('Name: This is missing.')
})
