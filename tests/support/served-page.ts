import type { Browser, Page } from 'playwright-core'
import { HOST, type TestApp } from './web.ts'

/** A page whose every request is answered by a service of the tests, without a port. */
export async function servedPage(browser: Browser, { app }: TestApp): Promise<Page> {
  const page = await browser.newPage()
  await page.route('**/*', async (route) => {
    const { pathname, search } = new URL(route.request().url())
    const answer = await app.inject({ url: pathname + search, headers: { host: HOST } })
    const contentType = String(answer.headers['content-type'] ?? 'text/plain')
    await route.fulfill({ status: answer.statusCode, contentType, body: answer.rawPayload })
  })
  return page
}
