import { join } from 'node:path'
import type { Browser, BrowserContext, Page, Request } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { brightness, complaintsOf, FIELD_NAME, launch, PICTURES } from '../support/chromium.ts'
import { faultsOf } from '../support/field-checks.ts'
import { SCROLL_WIDTH, TEXT_LOOKS, type TextLook } from '../support/in-page.ts'
import { OWN } from '../support/joined-night.ts'
import { type PhoneService, phoneService } from '../support/phone-service.ts'
import { HOST } from '../support/web.ts'

const PHONE = { width: 390, height: 844 }
const NARROW = { width: 320, height: 640 }

let service: PhoneService
let browser: Browser
let url = ''

beforeAll(async () => {
  let port = 0
  const allowedHosts = () => new Set([`${FIELD_NAME}:${port}`, HOST])
  service = await phoneService({ allowedHosts })
  await service.app.listen({ port: 0, host: '127.0.0.1' })
  const address = service.app.server.address()
  port = typeof address === 'object' && address !== null ? address.port : 0
  url = `http://${FIELD_NAME}:${port}`
  browser = await launch()
})
afterAll(async () => {
  await browser?.close()
  await service?.close()
})

/** A phone that has never been here, its clock right, its page, and all that it sends. */
async function phone(): Promise<{ context: BrowserContext; page: Page; sent: Request[] }> {
  const context = await browser.newContext({ viewport: PHONE })
  const page = await context.newPage()
  await page.clock.setFixedTime(service.clock.now())
  const sent: Request[] = []
  page.on('request', (request) => sent.push(request))
  return { context, page, sent }
}

const codes = () => service.desk.joins.codes(OWN.id)
const waiting = () => service.desk.joins.phones(OWN.id).find(({ name }) => name === 'Ben')
const isThere = (page: Page, selector: string): Promise<boolean> => page.locator(selector).isVisible()

describe('a phone that scans the picture', () => {
  it('joins by one tap, and its token is in no address, head, Referer or history', async () => {
    const { context, page, sent } = await phone()
    const complaints = complaintsOf(page, url)
    const { token } = codes()
    const before = service.desk.joins.phones(OWN.id).length
    await page.goto(`${url}/join#${token}`)
    expect(await page.evaluate('isSecureContext')).toBe(false)
    expect(page.url()).toBe(`${url}/join`)
    expect(await isThere(page, '[data-code]')).toBe(false)
    expect(await isThere(page, '[data-by-qr]')).toBe(true)
    expect(service.desk.joins.phones(OWN.id)).toHaveLength(before)

    await page.fill('[name=name]', 'Ada')
    await Promise.all([page.waitForURL(`${url}/field/${OWN.id}?look=lamp`), page.click('form button')])
    expect(service.desk.joins.phones(OWN.id)).toHaveLength(before + 1)
    expect(service.desk.joins.phones(OWN.id).some(({ name, aheadSec }) => name === 'Ada' && aheadSec !== null)).toBe(
      true,
    )
    for (const request of sent) {
      expect(request.url()).not.toContain(token)
      expect(JSON.stringify(await request.allHeaders())).not.toContain(token)
    }
    await page.goBack()
    expect(page.url()).toBe(`${url}/join`)
    expect(complaints).toEqual([])
    await context.close()
  })

  it('takes a second picture on the page that is open, and keeps the token for the other look', async () => {
    const { context, page } = await phone()
    await page.goto(`${url}/join`)
    expect(await isThere(page, '[data-code]')).toBe(true)
    await page.evaluate(`location.hash = '${codes().token}'`)
    await page.waitForFunction('location.hash === ""')
    expect(await isThere(page, '[data-code]')).toBe(false)
    await page.click('[data-look-link]')
    await page.waitForURL(`${url}/join?look=day`)
    expect(await isThere(page, '[data-code]')).toBe(false)
    await context.close()
  })

  it('is not taken in by what is no token', async () => {
    const { context, page } = await phone()
    await page.goto(`${url}/join#main`)
    expect(page.url()).toBe(`${url}/join`)
    expect(await isThere(page, '[data-code]')).toBe(true)
    await context.close()
  })
})

describe('a phone that joins quickly', () => {
  const wait = async (): Promise<{ context: BrowserContext; page: Page }> => {
    const made = await phone()
    const { digits } = service.desk.joins.openWindow(OWN.id)
    await made.page.goto(`${url}/join`)
    await made.page.fill('[name=code]', digits)
    await made.page.fill('[name=name]', 'Ben')
    await made.page.click('form button')
    await made.page.waitForSelector('[data-waits]')
    return made
  }

  it('goes on by itself when the host lets it in', async () => {
    const { context, page } = await wait()
    await service.act('let-in', waiting()?.id)
    await page.waitForURL(`${url}/field/${OWN.id}?look=lamp`, { timeout: 10_000 })
    await service.act('remove', waiting()?.id)
    await context.close()
  })

  it('reads that it was turned away, and gets the form', async () => {
    const { context, page } = await wait()
    await service.act('remove', waiting()?.id)
    await page.waitForSelector('form', { timeout: 10_000 })
    expect(await page.textContent('main')).toContain('This phone is not, or no longer, on the night.')
    await context.close()
  })
})

describe('without scripts', () => {
  it('one joins by the typed code, and looks again by a link', async () => {
    const context = await browser.newContext({ viewport: PHONE, javaScriptEnabled: false })
    const page = await context.newPage()
    await page.goto(`${url}/join`)
    await page.fill('[name=code]', codes().code)
    await page.fill('[name=name]', 'Cem')
    await page.click('label[for=role-helper]')
    await Promise.all([page.waitForURL(`${url}/field/${OWN.id}/line?look=lamp`), page.click('form button')])
    await page.goto(`${url}/join`)
    expect(await page.textContent('main')).toContain('This phone is in: Cem, helps with the line.')
    await context.close()
  })
})

describe.each(['lamp', 'day'])('the way in by the %s look', (look) => {
  it('is red alone by lamp, reads large, taps large, reflows, and satisfies axe, with a fault in it too', async () => {
    const { context, page } = await phone()
    await page.goto(`${url}/join?look=${look}`)
    await page.fill('[name=name]', 'Ada')
    await page.fill('[name=code]', 'K7QX 2M9P')
    await page.click('form button')
    await page.waitForSelector('.problems')
    await page.screenshot({ path: join(PICTURES, `join-${look}-phone.png`), fullPage: true })
    expect(await faultsOf(page)).toEqual([])
    if (look === 'lamp') {
      await page.focus('[name=code]')
      const { red, greenOrBlue } = await brightness(page)
      expect(red).toBeGreaterThan(240)
      expect(greenOrBlue).toBeLessThanOrEqual(8)
    }
    await page.setViewportSize(NARROW)
    expect(await page.evaluate<number>(SCROLL_WIDTH)).toBeLessThanOrEqual(NARROW.width)
    const acts = await page
      .locator('form button, .join-role label, .join input:not([type=radio]):not([type=hidden])')
      .all()
    expect(acts).toHaveLength(5)
    for (const act of acts) {
      const box = await act.boundingBox()
      expect(box?.height).toBeGreaterThanOrEqual(64)
      expect(box?.width).toBeGreaterThanOrEqual(NARROW.width - 40)
    }
    const looks = await page.evaluate<TextLook[]>(TEXT_LOOKS)
    expect(Math.min(...looks.map(({ pt }) => pt / 0.75))).toBeGreaterThanOrEqual(18)
    await context.close()
  })
})
