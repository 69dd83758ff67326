import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { brightness, complaintsOf, launch, PICTURES } from '../support/chromium.ts'
import { SLOW_MS } from '../support/desk-folder.ts'
import { faultsOf } from '../support/field-checks.ts'
import { type Box, SCROLL_WIDTH, TARGETS, TEXT_LOOKS, type TextLook } from '../support/in-page.ts'
import { FieldService } from './offline-service.ts'

/** The narrowest phone, which is also a screen of 1280 at four times the size, then a usual one, then a laptop. */
const SIZES = [
  { width: 320, height: 568 },
  { width: 390, height: 844 },
  { width: 1200, height: 900 },
]
const LOOKS = ['lamp', 'day'] as const
const PAGES = ['row', 'station', 'station with all open', 'station with a search'] as const
const CASES = LOOKS.flatMap((look) =>
  SIZES.flatMap((size) => PAGES.map((name) => [name, look, size.width, size] as const)),
)
const MAIN_ACT_PX = 64
const TARGET_PX = 48
const LEAST_TEXT_PX = 18
const DARK = 8

const service = new FieldService()
let browser: Browser
let context: BrowserContext
let page: Page
let place = 0
beforeAll(async () => {
  await service.start()
  const { stations } = service.desk.marks.field(service.night.id)
  place = stations.findIndex(({ showing, next }) => showing !== null && next !== null)
  await service.record({ key: 'clouds-01', kind: 'clouds', stationId: null, payload: { shut: ['n'], minutes: 60 } })
  const stationId = service.night.stations[place]?.id ?? null
  await service.record({ key: 'seen-0001', kind: 'seen', stationId, payload: { targetKey: 'moon', who: 'half' } })
  browser = await launch()
  context = await browser.newContext()
  await service.join(context, 'Ada')
  page = await context.newPage()
}, SLOW_MS)
afterAll(async () => {
  await browser?.close()
  await service.end()
})

async function open(name: (typeof PAGES)[number], look: string, size: (typeof SIZES)[number]): Promise<void> {
  await page.setViewportSize(size)
  const row = `${service.url}/field/${service.night.id}`
  const search = name === 'station with a search' ? 'q=nebula&' : ''
  const answer = await page.goto(`${name === 'row' ? row : service.stationPage(place)}?${search}look=${look}`)
  expect(answer?.status()).toBe(200)
  expect(Buffer.byteLength((await answer?.text()) ?? '')).toBeLessThan(25_000)
  if (name === 'station with all open') {
    await page.evaluate(`for (const each of document.querySelectorAll('details')) each.open = true`)
  }
}

/** Buttons beside each other: the least gap between them. */
const LEAST_GAP = `Math.min(...[...document.querySelectorAll('.three')].map((group) => {
  const [a, b] = [...group.querySelectorAll('button')].map((button) => button.getBoundingClientRect())
  return b.left - a.right
}))`

describe.each(CASES)('the page of the %s, %s, %i px wide', (name, look, _width, size) => {
  it('is whole, red alone by the lamp, with large targets and large words, and axe finds nothing', async () => {
    const complaints = complaintsOf(page, service.url)
    await open(name, look, size)
    expect(await page.evaluate('window.isSecureContext')).toBe(false)
    await page.screenshot({ path: join(PICTURES, `field ${name} ${look} ${size.width}.png`), fullPage: true })
    expect(await page.evaluate<number>(SCROLL_WIDTH)).toBeLessThanOrEqual(size.width)

    const targets = await page.evaluate<Box[]>(TARGETS)
    expect(targets.length).toBeGreaterThan(4)
    expect(targets.filter(({ height, width }) => Math.min(height, width) < TARGET_PX)).toEqual([])
    const texts = await page.evaluate<TextLook[]>(TEXT_LOOKS)
    expect(texts.filter(({ pt }) => pt / 0.75 < LEAST_TEXT_PX)).toEqual([])

    if (look === 'lamp') {
      const { red, greenOrBlue } = await brightness(page)
      expect(greenOrBlue).toBeLessThanOrEqual(DARK)
      expect(red).toBe(255)
    }
    expect(await faultsOf(page)).toEqual([])
    expect(complaints).toEqual([])
    page.removeAllListeners()
  })
})

describe.each(SIZES)('a station %o', (size) => {
  it('shows five things before a tap, all of them on the first screen, the name largest and one large button', async () => {
    await service.record({
      key: `clear-${size.width}-1`,
      kind: 'clouds',
      stationId: null,
      payload: { shut: [], minutes: null },
    })
    await open('station', 'lamp', size)
    const first = await page.evaluate<{
      bottom: number
      sizes: number[]
      buttons: number
      folds: number
      isOpen: boolean
    }>(`(() => {
      const seen = (element) => element.checkVisibility()
      const [name, until, next] = ['.target', '.until', '.then'].map((part) => document.querySelector('.now ' + part))
      return {
        bottom: document.querySelector('#trouble').getBoundingClientRect().bottom,
        sizes: [name, until, next].map((text) => Number.parseFloat(getComputedStyle(text).fontSize)),
        buttons: [...document.querySelectorAll('main button')].filter(seen).length,
        folds: [...document.querySelectorAll('.folds > *')].filter((fold) => fold.localName !== 'details').length,
        isOpen: document.querySelector('details[open]') !== null,
      }
    })()`)
    const [name = 0, until = 0, next = 0] = first.sizes
    expect(name).toBeGreaterThan(until)
    expect(until).toBeGreaterThanOrEqual(next)
    expect(first).toMatchObject({ buttons: 1, folds: 0, isOpen: false })
    expect(first.bottom).toBeLessThanOrEqual(size.height)

    const main = await page.locator('.main-act button').boundingBox()
    const whole = await page.locator('.now').boundingBox()
    expect(main?.height).toBeGreaterThanOrEqual(MAIN_ACT_PX)
    expect(main?.width).toBe(whole?.width)
    await page.evaluate(`for (const each of document.querySelectorAll('details')) each.open = true`)
    expect(await page.evaluate<number>(LEAST_GAP)).toBeGreaterThanOrEqual(12)
  })
})

describe('a page that cannot be shown', () => {
  it.each(['/field/nowhere', '/field/nowhere/nothing'])('is red alone too: %s', async (path) => {
    await page.setViewportSize({ width: 390, height: 844 })
    await context.clearCookies({ name: 'look' })
    expect((await page.goto(service.url + path))?.status()).toBe(404)
    expect((await brightness(page)).greenOrBlue).toBeLessThanOrEqual(DARK)
  })
})

describe('the check of the row', () => {
  it('is read by the lamp as well, at every half hour', async () => {
    await page.goto(`${service.url}/nights/${service.night.id}/check?look=lamp`)
    expect((await brightness(page)).greenOrBlue).toBeLessThanOrEqual(DARK)
    const times = await page.locator('.check-times a').first().getAttribute('href')
    expect(times).toContain('&look=lamp')
  })
})
