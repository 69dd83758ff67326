import { existsSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { SESSION_COOKIE } from '../../server/web/roles.ts'
import { ACTS, type Act, toldSoFar } from '../support/acts.ts'
import { CHROMIUM, FIELD_NAME, launch } from '../support/chromium.ts'
import { recordRow } from '../support/fault-rows.ts'
import { type TestApp, testApp } from '../support/web.ts'

const isThere = existsSync(CHROMIUM)
if (!isThere) console.log(`Left out: pages of another origin, since there is no Chromium at ${CHROMIUM}`)
const FORM_TYPES = ['application/x-www-form-urlencoded', 'text/plain', 'multipart/form-data'] as const
const FETCH_TYPES = ['application/json', 'text/plain', 'application/x-www-form-urlencoded'] as const
const MODES = ['no-cors', 'cors'] as const

let service: TestApp
let browser: Browser
let evil: Server
let [port, evilPort, tries] = [0, 0, 0]

beforeAll(async () => {
  if (!isThere) return
  service = await testApp({ allowedHosts: () => new Set([`127.0.0.1:${port}`]) })
  await service.app.listen({ port: 0, host: '127.0.0.1' })
  port = portOf(service.app.server)
  evil = createServer((_request, answer) => {
    answer.setHeader('content-type', 'text/html').end('<!doctype html><title>A friendly page</title>')
  })
  await new Promise<void>((resolve) => evil.listen(0, '127.0.0.1', resolve))
  evilPort = portOf(evil)
  browser = await launch()
})
afterAll(async () => {
  if (!isThere) return
  await browser.close()
  await service.app.close()
  evil.close()
})
const portOf = (server: { address(): AddressInfo | string | null }): number => {
  const address = server.address()
  return typeof address === 'object' && address !== null ? address.port : 0
}
const ourUrl = () => `http://127.0.0.1:${port}`

/** Somebody who is signed in as host, with a cookie as loose as plain http allows, and a page open somewhere else. */
async function pageAt(url: string): Promise<{ context: BrowserContext; page: Page }> {
  const context = await browser.newContext()
  await context.addCookies([{ name: SESSION_COOKIE, value: 'a-living-session', url: ourUrl(), sameSite: 'Lax' }])
  const page = await context.newPage()
  await page.goto(url)
  return { context, page }
}

/** Sends a form of one field from the page, as a script there would; the field's name and value together are the body. */
async function postForm(page: Page, act: Act, target: string, enctype: string): Promise<void> {
  const body = act.body(`key-of-a-form-${++tries}`)
  const fields =
    act.type === 'application/json' ? [[body.slice(0, -2), body.slice(-2)]] : [...new URLSearchParams(body)]
  const inputs = JSON.stringify(fields)
  await Promise.all([
    page.waitForEvent('framenavigated'),
    page.evaluate(`{
      const form = document.createElement('form')
      Object.assign(form, { method: 'post', action: ${JSON.stringify(target + act.url)}, enctype: '${enctype}' })
      for (const [name, value] of ${inputs}) form.append(Object.assign(document.createElement('input'), { name, value }))
      document.body.append(form)
      form.submit()
    }`),
  ])
  await page.waitForLoadState()
}

/** Fetches from the page; the status that it may read, or what kept it from that. */
const fetchFrom = (page: Page, act: Act, type: string, mode: string): Promise<unknown> =>
  page.evaluate(`fetch(${JSON.stringify(ourUrl() + act.url)}, {
    method: 'POST', mode: '${mode}', credentials: 'include', headers: { 'content-type': '${type}' },
    body: ${JSON.stringify(act.body(`key-of-a-fetch-${++tries}`))},
  }).then((answer) => answer.type === 'opaque' ? 'opaque' : answer.status, () => 'kept away')`)

describe.skipIf(!isThere)('a page of another origin', () => {
  it('changes nothing by form or fetch and reads nothing, on another port, under another name, or under a name turned to us', async () => {
    const before = toldSoFar(service.kept)
    const read: unknown[] = []
    const origins = [`http://127.0.0.1:${evilPort}`, `http://${FIELD_NAME}:${evilPort}`]
    for (const origin of origins) {
      for (const act of ACTS) {
        for (const enctype of FORM_TYPES) {
          const { context, page } = await pageAt(origin)
          await postForm(page, act, ourUrl(), enctype)
          await context.close()
        }
        const { context, page } = await pageAt(origin)
        for (const type of FETCH_TYPES) for (const mode of MODES) read.push(await fetchFrom(page, act, type, mode))
        await context.close()
      }
    }
    for (const act of ACTS) {
      const { context, page } = await pageAt(`http://${FIELD_NAME}:${port}`)
      await postForm(page, act, '', act.type)
      read.push(await page.evaluate(`fetch('/api/nights').then(({ status }) => status === 421 ? 'kept away' : status)`))
      await context.close()
    }
    const seen = read.filter((each) => each !== 'opaque' && each !== 'kept away')
    const isSame = toldSoFar(service.kept) === before
    const reached = `${tries} forms and fetches in Chromium, ${seen.length} answers read, ${isSame ? 'nothing' : 'something'} changed`
    recordRow({ row: 14, part: 'pages', reached, isReached: isSame && seen.length === 0, seed: null, count: tries })
    expect(toldSoFar(service.kept)).toBe(before)
    expect(seen).toEqual([])
  })

  it('is the reason: the same form and fetch act from our own page', async () => {
    const { context, page } = await pageAt(`${ourUrl()}/`)
    const [, , form] = ACTS
    if (!form) throw new Error('There is a form among the acts')
    for (const act of ACTS.filter(({ type }) => type === 'application/json')) {
      const before = toldSoFar(service.kept)
      expect(await fetchFrom(page, act, act.type, 'cors')).toBeLessThan(300)
      expect(toldSoFar(service.kept)).not.toBe(before)
    }
    const before = toldSoFar(service.kept)
    await postForm(page, form, ourUrl(), form.type)
    expect(toldSoFar(service.kept)).not.toBe(before)
    await context.close()
  })
})
