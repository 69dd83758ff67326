import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { brightness, complaintsOf, launch, signIn } from '../support/chromium.ts'
import { type Demo, startDemo } from '../support/demo.ts'
import { faultsOf } from '../support/field-checks.ts'
import { CUT_CARDS, DIGITS, SCROLL_WIDTH, TEXT_LOOKS, type TextLook } from '../support/in-page.ts'
import { type DemoPlaces, demoPlaces, PAGES, pageAddress } from '../support/page-addresses.ts'
import { EVERY_STOP, PARTED_WORDS, SPACE_OUT, SPILT_TEXTS, UNFOLD } from '../support/stops-in-page.ts'

const WIDE = { width: 1280, height: 900 }
const PHONE = { width: 390, height: 844 }
const NARROW = { width: 320, height: 640 }
/** A laptop of 1280 by 1024 at 400 %, which is also as narrow as the narrowest phone. */
const NARROWEST = { width: 320, height: 256 }

let demo: Demo
let browser: Browser
let context: BrowserContext
let page: Page
let german: Page
let places: DemoPlaces

beforeAll(async () => {
  demo = await startDemo()
  browser = await launch()
  context = await browser.newContext({ viewport: WIDE })
  await signIn(context, demo.url, demo.pin)
  page = await context.newPage()
  places = await demoPlaces(context.request, demo.url)
  const reader = await browser.newContext({ viewport: NARROWEST })
  await signIn(reader, demo.url, demo.pin)
  german = await reader.newPage()
  await german.goto(`${demo.url}/?lang=de`)
})
afterAll(async () => {
  await browser?.close()
  await demo?.stop()
})

const names = Object.keys(PAGES)
/** Sheets to be printed have fixed sizes; their words stand on pages too. */
const isPaper = (name: string): boolean => /\/print\b/.test(PAGES[name] ?? '')
const addressOf = (name: string): string => demo.url + pageAddress(name, places)

describe.each(names)('the page %s in a browser', (name) => {
  let complaints: readonly string[] = []
  let status: number | undefined

  beforeAll(async () => {
    complaints = complaintsOf(page, demo.url)
    await page.setViewportSize(WIDE)
    status = (await page.goto(addressOf(name)))?.status()
  })
  afterAll(() => void page.removeAllListeners())

  it('meets WCAG 2.2 AA as far as axe can tell, on a laptop as it opens', async () => {
    expect(status).toBe(200)
    await page.setViewportSize(WIDE)
    expect(await faultsOf(page)).toEqual([])
  })

  it('meets it on a phone with all unfolded, and a keyboard sees each stop, large enough to be pressed', async () => {
    await page.setViewportSize(PHONE)
    await page.evaluate(UNFOLD)
    expect(await faultsOf(page)).toEqual([])
    await page.keyboard.press('Tab')
    const stops = await page.evaluate<string[][]>(EVERY_STOP)
    expect(stops.length).toBeGreaterThan(0)
    expect(stops.flat()).toEqual([])
  })

  it('needs no sideways scrolling on the narrowest screen, with words spaced out either, and keeps all of them', async () => {
    await page.setViewportSize(NARROWEST)
    await page.evaluate(UNFOLD)
    expect(await page.evaluate<number>(SCROLL_WIDTH)).toBeLessThanOrEqual(NARROWEST.width)
    if (isPaper(name)) return
    await page.evaluate(SPACE_OUT)
    expect(await page.evaluate<number>(SCROLL_WIDTH)).toBeLessThanOrEqual(NARROWEST.width)
    expect(await page.evaluate<string[]>(SPILT_TEXTS)).toEqual([])
  })

  it('had nothing to complain of, and asked nobody else', () => {
    expect(complaints).toEqual([])
  })
})

describe.each(names.filter((name) => !isPaper(name)))('the page %s in German, whose words are longer', (name) => {
  it('cuts none of them in two, needs no sideways scrolling, and its keyboard sees each stop', async () => {
    const complaints = complaintsOf(german, demo.url)
    await german.setViewportSize(NARROWEST)
    await german.goto(addressOf(name))
    await german.evaluate(UNFOLD)
    expect(await german.evaluate('document.documentElement.lang')).toBe('de')
    expect(await german.evaluate<string[]>(PARTED_WORDS)).toEqual([])
    await german.keyboard.press('Tab')
    expect((await german.evaluate<string[][]>(EVERY_STOP)).flat()).toEqual([])
    await german.evaluate(SPACE_OUT)
    expect(await german.evaluate<number>(SCROLL_WIDTH)).toBeLessThanOrEqual(NARROWEST.width)
    expect(await german.evaluate<string[]>(SPILT_TEXTS)).toEqual([])
    await german.setViewportSize(WIDE)
    expect((await german.evaluate<string[][]>(EVERY_STOP)).flat()).toEqual([])
    expect(complaints).toEqual([])
    german.removeAllListeners()
  })
})

it('sees a word that is cut in two', async () => {
  const parted = await context.newPage()
  await parted.setContent('<p>Im <b>Nordwest</b></p>')
  await parted.evaluate("document.querySelector('b').style = 'display: block; width: 3ch; overflow-wrap: anywhere'")
  expect(await parted.evaluate<string[]>(PARTED_WORDS)).toEqual(['Nordwest'])
  await parted.close()
})

describe('the list of pages', () => {
  it('has each page that can be read by the lamp in both looks', async () => {
    const pathOf = (address: string): string => address.replace(/\?.*/, '')
    const lookOf = async (address: string) => {
      const html = await (await context.request.get(demo.url + address)).text()
      return /data-look="(\w+)"/.exec(html)?.[1]
    }
    const read = names.filter((name) => !isPaper(name)).map((name) => pageAddress(name, places))
    const lit = new Map<string, (string | undefined)[]>()
    for (const path of new Set(read.map(pathOf))) if ((await lookOf(`${path}?look=lamp`)) === 'lamp') lit.set(path, [])
    for (const address of read) lit.get(pathOf(address))?.push(await lookOf(address))
    expect(lit.size).toBeGreaterThan(12)
    expect([...lit].filter(([, looks]) => !looks.includes('lamp') || !looks.includes('day'))).toEqual([])
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
