import { join } from 'node:path'
import { AxeBuilder } from '@axe-core/playwright'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { brightness, complaintsOf, launch, PICTURES, readPdf, signIn } from '../support/chromium.ts'
import { type Demo, startDemo } from '../support/demo.ts'
import { CUT_CARDS, DIGITS, SCROLL_WIDTH, TEXT_LOOKS, type TextLook } from '../support/in-page.ts'
import { type DemoPlaces, demoPlaces, PAGES, pageAddress } from '../support/page-addresses.ts'

const WCAG = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']
const WIDE = { width: 1280, height: 900 }
const PHONE = { width: 390, height: 844 }
const NARROW = { width: 320, height: 640 }

let demo: Demo
let browser: Browser
let context: BrowserContext
let page: Page
let places: DemoPlaces
let targets: string[] = []

beforeAll(async () => {
  demo = await startDemo()
  browser = await launch()
  context = await browser.newContext({ viewport: WIDE })
  await signIn(context, demo.url, demo.pin)
  page = await context.newPage()
  places = await demoPlaces(context.request, demo.url)
  const tour = await (await context.request.get(`${demo.url}/api/nights/${places.night}/tour`)).json()
  targets = [...new Set<string>(tour.stops.map(({ targetName }: { targetName: string }) => targetName))]
})
afterAll(async () => {
  await browser?.close()
  await demo?.stop()
})

const names = Object.keys(PAGES)
const addressOf = (name: string): string => demo.url + pageAddress(name, places)

describe.each(names)('the page %s in a browser', (name) => {
  it('loads without a complaint and without asking anyone else', async () => {
    const complaints = complaintsOf(page, demo.url)
    await page.setViewportSize(WIDE)
    const answer = await page.goto(addressOf(name), { waitUntil: 'networkidle' })
    expect(answer?.status()).toBe(200)
    for (const [size, viewport] of [
      ['wide', WIDE],
      ['phone', PHONE],
    ] as const) {
      await page.setViewportSize(viewport)
      await page.screenshot({ path: join(PICTURES, `${name}-${size}.png`), fullPage: true })
    }
    expect(complaints).toEqual([])
    page.removeAllListeners()
  })

  it('meets WCAG 2.2 AA as far as axe can tell', async () => {
    await page.setViewportSize(WIDE)
    await page.goto(addressOf(name))
    const { violations } = await new AxeBuilder({ page }).withTags(WCAG).analyze()
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`)).toEqual([])
  })

  it('needs no sideways scrolling on the narrowest phone', async () => {
    await page.setViewportSize(NARROW)
    await page.goto(addressOf(name))
    expect(await page.evaluate<number>(SCROLL_WIDTH)).toBeLessThanOrEqual(NARROW.width)
  })
})

describe('the lamp', () => {
  it.each(['field', 'field-row', 'hole', 'align', 'set-up', 'object-lamp'])(
    'lights the page %s in red alone',
    async (name) => {
      await page.setViewportSize(PHONE)
      await page.goto(addressOf(name))
      if (name === 'field') await page.click('summary')
      const { red, greenOrBlue } = await brightness(page)
      expect(red).toBeGreaterThan(240)
      expect(greenOrBlue).toBeLessThanOrEqual(8)
    },
  )

  it('has large acts over the full width, and no small text', async () => {
    await page.setViewportSize(NARROW)
    await page.goto(addressOf('field'))
    const acts = await page.locator('.main-act button, #trouble summary').all()
    expect(acts).toHaveLength(2)
    for (const act of acts) {
      const box = await act.boundingBox()
      expect(box?.height).toBeGreaterThanOrEqual(64)
      expect(box?.width).toBeGreaterThanOrEqual(NARROW.width - 40)
    }
    const looks = await page.evaluate<TextLook[]>(TEXT_LOOKS)
    const sizes = looks.map(({ pt }) => pt / 0.75)
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(18)
  })
})

describe('the font', () => {
  it('is the bundled one, with digits all equally wide', async () => {
    await page.goto(addressOf('board'))
    const { faces, widths } = await page.evaluate<{ faces: number; widths: number[] }>(DIGITS)
    expect(faces).toBeGreaterThan(0)
    expect(new Set(widths).size).toBe(1)
    expect(widths[0]).toBeCloseTo((1200 / 2048) * 100, 1)
  })
})

describe('the cards', () => {
  it('hold all their words', async () => {
    await page.emulateMedia({ media: 'print' })
    await page.goto(addressOf('cards'))
    const cut = await page.evaluate<string[]>(CUT_CARDS)
    await page.emulateMedia({ media: null })
    expect(cut).toEqual([])
  })
})

describe('a skyline that is tapped without scripts', () => {
  /** What is tapped: the quarter, and the direction and height in degrees. */
  const TAPS = [
    [0, 5, 3],
    [90, 133, 58],
    [180, 268, 41],
    [270, 355, 12],
  ] as const

  it.each([WIDE, NARROW])('has its corners where the finger was, $width pixels wide', async (viewport) => {
    const plain = await browser.newContext({ javaScriptEnabled: false, viewport, hasTouch: true, deviceScaleFactor: 3 })
    await signIn(plain, demo.url, demo.pin)
    const form = await plain.newPage()
    await form.goto(`${demo.url}/sites/new`)
    for (const [quarter, azimuthDeg, altitudeDeg] of TAPS) {
      const position = { x: (azimuthDeg - quarter) * 3, y: 186 - altitudeDeg * 3 }
      const picture = form.locator(`[name="tap.${quarter}"]`)
      await Promise.all([form.waitForURL(`**/sites#quarter-${quarter}`), picture.tap({ position })])
    }
    const typed = (part: string) => form.locator(`[name^="horizon."][name$="${part}"]`)
    const valuesOf = async (part: string) =>
      Promise.all((await typed(part).all()).map(async (field) => Number.parseFloat(await field.inputValue())))
    const [azimuths, altitudes] = [await valuesOf('azimuthDeg'), await valuesOf('altitudeDeg')]
    expect(azimuths).toHaveLength(TAPS.length)
    for (const [i, [, azimuthDeg, altitudeDeg]] of TAPS.entries()) {
      expect(Math.abs((azimuths[i] ?? Number.NaN) - azimuthDeg)).toBeLessThanOrEqual(2)
      expect(Math.abs((altitudes[i] ?? Number.NaN) - altitudeDeg)).toBeLessThanOrEqual(1)
    }
    await plain.close()
  })
})

const PAPERS = { a4: [210, 297], letter: [215.9, 279.4] } as const

describe.each(['run-sheet', 'check-sheet', 'sheets', 'cards'])('the printed %s', (name) => {
  it.each(['a4', 'letter'] as const)('fits %s paper and names every target', async (paper) => {
    await page.setViewportSize(WIDE)
    await page.goto(`${addressOf(name)}?paper=${paper}`)
    const file = join(PICTURES, `${name}-${paper}.pdf`)
    await page.pdf({ path: file, preferCSSPageSize: true })
    const { text, pages, widthMm, heightMm } = readPdf(file)
    expect(widthMm).toBeCloseTo(PAPERS[paper][0], 0)
    expect(heightMm).toBeCloseTo(PAPERS[paper][1], 0)
    const words = text.replace(/\s+/g, ' ')
    expect(targets.length).toBeGreaterThan(3)
    for (const target of targets) expect(words).toContain(target)
    if (name === 'run-sheet') expect(pages).toBe(1)
    if (name === 'sheets') expect(pages).toBe(4)
  })

  it('is black on white, upright, and nowhere under 12 pt', async () => {
    await page.emulateMedia({ media: 'print' })
    await page.goto(addressOf(name))
    const styles = await page.evaluate<TextLook[]>(TEXT_LOOKS)
    await page.emulateMedia({ media: null })
    expect(styles.length).toBeGreaterThan(5)
    expect(Math.min(...styles.map(({ pt }) => pt))).toBeGreaterThanOrEqual(name === 'sheets' ? 13.99 : 11.99)
    expect(new Set(styles.map(({ fontStyle }) => fontStyle))).toEqual(new Set(['normal']))
    expect(new Set(styles.map(({ color }) => color))).toEqual(new Set(['rgb(0, 0, 0)']))
  })
})
