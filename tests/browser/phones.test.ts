import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { decodeQR } from 'qr/decode.js'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { complaintsOf, launch, PICTURES, readPdf } from '../support/chromium.ts'
import { faultsOf } from '../support/field-checks.ts'
import { dotsOf, SCROLL_WIDTH } from '../support/in-page.ts'
import { OWN } from '../support/joined-night.ts'
import { type PhoneService, phoneService } from '../support/phone-service.ts'

const WIDE = { width: 1200, height: 900 }
const PHONE = { width: 390, height: 844 }
const NARROW = { width: 320, height: 640 }
const MM_PER_PX = 25.4 / 96

let service: PhoneService
let browser: Browser
let context: BrowserContext
let page: Page
let url = ''

beforeAll(async () => {
  let port = 0
  const allowedHosts = () => new Set([`127.0.0.1:${port}`, '192.168.50.1:8080'])
  service = await phoneService({ allowedHosts })
  await service.app.listen({ port: 0, host: '127.0.0.1' })
  const address = service.app.server.address()
  port = typeof address === 'object' && address !== null ? address.port : 0
  url = `http://127.0.0.1:${port}`
  browser = await launch()
  context = await browser.newContext({ viewport: WIDE })
  await context.addCookies([{ name: 'duskrow-session', value: service.tokens.host, url }])
  page = await context.newPage()
})
afterAll(async () => {
  await browser?.close()
  await service?.close()
})

/** What a camera reads in a picture on the page. */
async function scanned(place: number): Promise<string> {
  const picture = (await page.locator('.scan svg').nth(place).screenshot()).toString('base64')
  const { width, height, dots } = await page.evaluate<{ width: number; height: number; dots: number[] }>(
    dotsOf(picture),
  )
  return decodeQR({ width, height, data: Uint8Array.from(dots) }, { timeLimit: 2_000 })
}

describe('the page of the phones', () => {
  it('can be scanned, is fit for axe, and needs no sideways scrolling', async () => {
    const complaints = complaintsOf(page, url)
    await page.goto(`${url}/nights/${OWN.id}/phones`)
    await page.click('#quick button')
    await page.waitForSelector('#quick .numeral')
    await page.click('section:has(h2:text("Pair my phone")) button')
    await page.waitForSelector('text=It works once')
    // While somebody is at a link of the page it stays as it is, here for the camera.
    await page.focus('main .ways a')
    const { token } = service.desk.joins.codes(OWN.id)
    const pairing = service.desk.joins.pairing(OWN.id)?.token
    expect([await scanned(0), await scanned(1), await scanned(2), await scanned(3)]).toEqual([
      `http://192.168.137.1:8080/join#${token}`,
      `http://192.168.1.23:8080/join#${token}`,
      `http://192.168.137.1:8080/join?as=host#${pairing}`,
      `http://192.168.137.1:8080/tonight/${OWN.id}`,
    ])
    expect(await faultsOf(page)).toEqual([])
    for (const viewport of [WIDE, PHONE, NARROW]) {
      await page.setViewportSize(viewport)
      await page.screenshot({ path: join(PICTURES, `phones-${viewport.width}.png`), fullPage: true })
      expect(await page.evaluate<number>(SCROLL_WIDTH)).toBeLessThanOrEqual(viewport.width)
    }
    expect(complaints).toEqual([])
  })

  it('shows a phone that waits within seconds, and the rest of the minute', async () => {
    const { digits } = service.desk.joins.openWindow(OWN.id)
    await page.goto(`${url}/nights/${OWN.id}/phones`)
    await service.send('/join', { code: digits, name: 'Quincy' })
    await page.waitForSelector('button:has-text("Let Quincy in")', { timeout: 10_000 })
    await Promise.all([page.waitForLoadState('load'), page.click('button:has-text("Let Quincy in")')])
    await page.waitForSelector('button:has-text("Remove Quincy")')
  })
})

const PAPERS = { a4: [210, 297], letter: [215.9, 279.4] } as const

describe.each(['a4', 'letter'] as const)('the join card on %s', (paper) => {
  it('is two pages, one for helpers and one for visitors, and can be scanned', async () => {
    await page.setViewportSize(WIDE)
    await page.goto(`${url}/nights/${OWN.id}/print/join-card?paper=${paper}`)
    const file = join(PICTURES, `join-card-${paper}.pdf`)
    await page.pdf({ path: file, preferCSSPageSize: true })
    const { text, pages, widthMm, heightMm } = readPdf(file)
    expect(pages).toBe(2)
    expect(widthMm).toBeCloseTo(PAPERS[paper][0], 0)
    expect(heightMm).toBeCloseTo(PAPERS[paper][1], 0)
    const { token, code } = service.desk.joins.codes(OWN.id)
    const [helpers = '', visitors = ''] = text.split('\f')
    expect(helpers).toContain('http://192.168.137.1:8080/join')
    expect(helpers).toContain(`${code.slice(0, 4)} ${code.slice(4)}`)
    expect(visitors.replaceAll(/\s/g, '')).toContain(`http://192.168.137.1:8080/tonight/${OWN.id}`)
    expect(visitors).not.toContain(code.slice(0, 4))
    await page.emulateMedia({ media: 'print' })
    for (const picture of await page.locator('.scan svg').all()) {
      expect(((await picture.boundingBox())?.width ?? 0) * MM_PER_PX).toBeGreaterThanOrEqual(25)
    }
    expect([await scanned(0), await scanned(1)]).toEqual([
      `http://192.168.137.1:8080/join#${token}`,
      `http://192.168.137.1:8080/tonight/${OWN.id}`,
    ])
    await page.emulateMedia({ media: null })
  })
})
