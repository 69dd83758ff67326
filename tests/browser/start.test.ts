import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { typeset } from '../../server/web/typeset.ts'
import { complaintsOf, launch, PICTURES, readPdf } from '../support/chromium.ts'
import { emptyServices } from '../support/journey.ts'

const PIN = '271828'
const NOW = '2026-11-27T12:00:00Z'
const THREE_MIN_MS = 180_000
const LINES = { town: 'Thun', date: '17 December 2026', kit: 'two 130 mm telescopes' }
const SIZES = [1200, 390, 320]

interface Way {
  readonly name: string
  readonly hasScripts: boolean
}
const WAYS: readonly Way[] = [
  { name: 'with scripts', hasScripts: true },
  { name: 'without scripts', hasScripts: false },
]

const services = emptyServices('--pin', PIN, '--clock', NOW)
let browser: Browser
let firstUrl = ''

beforeAll(async () => {
  browser = await launch()
})
afterAll(async () => {
  await browser?.close()
  await services.end()
})

/** The page as one person uses it: every page that is seen and every press of a link or button is counted. */
function person(page: Page) {
  const seen = { pages: 0, presses: 0 }
  page.on('framenavigated', (frame) => {
    if (frame === page.mainFrame()) seen.pages += 1
  })
  return {
    seen,
    async press(selector: string): Promise<void> {
      seen.presses += 1
      const next = page.waitForEvent('framenavigated', { timeout: THREE_MIN_MS })
      await page.click(selector)
      await next
      await page.waitForLoadState()
    },
  }
}

describe('a new user with an empty laptop', () => {
  it.each(WAYS)('gets a printable evening from three lines $name', { timeout: THREE_MIN_MS * 2 }, async (way) => {
    const service = await services.start()
    firstUrl ||= service.url
    const context = await browser.newContext({
      viewport: { width: 1200, height: 900 },
      javaScriptEnabled: way.hasScripts,
    })
    const page = await context.newPage()
    const complaints = complaintsOf(page, service.url)
    const { seen, press } = person(page)
    const beganMs = performance.now()
    await page.goto(service.url)
    await press('.next-step .button')
    await page.fill('input[name=pin]', PIN)
    await press('main button')
    await press('.next-step .button')
    for (const [name, text] of Object.entries(LINES)) await page.fill(`input[name=${name}]`, text)
    await press('main form button')
    expect(await page.textContent('.lead')).toContain('Thursday 17 December 2026')
    const assumed = await page.textContent('.start-assumed')
    for (const said of ['small town', 'open horizon', 'sunset at 16:4', 'reflector', '650\u00a0mm']) {
      expect(assumed).toContain(said)
    }
    await press('.next-step .button')
    const file = join(PICTURES, `start-${WAYS.indexOf(way)}.pdf`)
    await page.pdf({ path: file, preferCSSPageSize: true })
    const ms = performance.now() - beganMs
    console.log(
      `A printable evening ${way.name}: ${(ms / 1000).toFixed(1)} s, ${seen.pages} pages, ${seen.presses} presses`,
    )
    expect(ms).toBeLessThan(THREE_MIN_MS)
    expect(seen).toEqual({ pages: 6, presses: 5 })
    await holdsTheEvening(page, service.url, file)
    expect(complaints).toEqual([])
    await context.close()
  })

  it('has screens that fit a laptop and a phone, and papers that fit both sheets', async () => {
    const url = firstUrl
    const context = await browser.newContext()
    const page = await context.newPage()
    await page.goto(`${url}/sign-in`)
    await page.fill('input[name=pin]', PIN)
    await Promise.all([page.waitForURL(({ pathname }) => pathname === '/'), page.click('main button')])
    const { nights } = await (await context.request.get(`${url}/api/nights`)).json()
    await page.goto(`${url}/start`)
    await page.fill('input[name=town]', 'Springfield')
    await page.fill('input[name=date]', '7/8/2027')
    await page.fill('input[name=kit]', 'two large telescopes')
    await Promise.all([page.waitForEvent('load'), page.click('main form button')])
    for (const path of [null, '/start', `/nights/${nights[0].id}/start`]) {
      if (path) await page.goto(url + path)
      for (const width of SIZES) {
        await page.setViewportSize({ width, height: 900 })
        const name = `start-${path ? path.split('/').length : 'wrong'}-${width}.png`
        await page.screenshot({ path: join(PICTURES, name), fullPage: true })
        expect(await page.evaluate('document.documentElement.scrollWidth'), name).toBeLessThanOrEqual(width)
      }
    }
    for (const [size, widthMm, heightMm] of [
      ['a4', 210, 297],
      ['letter', 215.9, 279.4],
    ] as const) {
      await page.goto(`${url}/nights/${nights[0].id}/print/tonight?paper=${size}`)
      const file = join(PICTURES, `start-${size}.pdf`)
      await page.pdf({ path: file, preferCSSPageSize: true })
      const paper = readPdf(file)
      expect(paper.widthMm).toBeCloseTo(widthMm, 0)
      expect(paper.heightMm).toBeCloseTo(heightMm, 0)
    }
  })
})

/** What was printed has every target of the programme with the time at which it begins, on the sheets of both telescopes. */
async function holdsTheEvening(page: Page, url: string, file: string): Promise<void> {
  const { request } = page.context()
  const { nights } = await (await request.get(`${url}/api/nights`)).json()
  expect(nights).toHaveLength(1)
  const { stops } = await (await request.get(`${url}/api/nights/${nights[0].id}/tour`)).json()
  expect(stops.length).toBeGreaterThanOrEqual(4)
  const { text } = readPdf(file)
  const printed = text.replace(/\s+/g, ' ')
  for (const { targetName, startsAtWall } of stops) {
    expect(printed).toContain(typeset(targetName).replace(/\s+/g, ' '))
    expect(printed).toContain(startsAtWall)
  }
  for (const number of [1, 2]) expect(printed).toContain(`130 mm telescope ${number}`)
}
