import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { PIECE_NAMES } from '../../server/web/pages/papers.ts'
import { launch, PICTURES, signIn } from '../support/chromium.ts'
import { type Demo, startDemo } from '../support/demo.ts'
import { faultsOf } from '../support/field-checks.ts'
import { SCROLL_WIDTH } from '../support/in-page.ts'
import { CUT_TEXTS, PRINTED_TEXTS, type PrintedText, sheetsOf, wordsOf } from '../support/printed.ts'

const PAPERS = ['a4', 'letter'] as const
const PHONE = { width: 390, height: 844 }
const SIZES = { a4: [210, 297], letter: [215.9, 279.4] } as const
/** Pieces that name every target of the evening, and of these the ones that say when it is shown. */
const NAMING: readonly string[] = ['run-sheet', 'sheets', 'check-sheet', 'cards', 'handout']
const TIMED: readonly string[] = ['run-sheet', 'sheets']
/** What the papers of this evening must come to, whatever is promised: a run sheet of one page, one for each of four stations. */
const WHOLE: Readonly<Record<string, number>> = { 'run-sheet': 1, sheets: 4 }
/** Read in the dark, at a telescope. */
const IN_THE_FIELD: readonly string[] = ['sheets']
/** Ink that a copier must leave, and no more than it may add, as shares. */
const COPIED = { least: 0.8, most: 1.25 }
const USUAL_SHEETS = 8

let demo: Demo
let browser: Browser
let context: BrowserContext
let page: Page
let night = ''
let stops: readonly { readonly name: string; readonly time: string }[] = []
const promised = new Map<string, { readonly href: string; readonly pages: number }>()

beforeAll(async () => {
  demo = await startDemo()
  browser = await launch()
  context = await browser.newContext()
  await signIn(context, demo.url, demo.pin)
  page = await context.newPage()
  await page.emulateMedia({ media: 'print' })
  const { nights } = await (await context.request.get(`${demo.url}/api/nights`)).json()
  const found = nights.find(({ date }: { date: string }) => date === '2026-12-17')
  night = found.id
  const tour = await (await context.request.get(`${demo.url}/api/nights/${night}/tour`)).json()
  const time = new Intl.DateTimeFormat('en', {
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
    timeZone: found.site.zone,
  })
  stops = tour.stops.map(({ targetName, startsAt }: { targetName: string; startsAt: string }) => ({
    name: targetName,
    time: time.format(new Date(startsAt)),
  }))
  for (const paper of PAPERS) await readPromises(paper)
})
afterAll(async () => {
  await browser?.close()
  await demo?.stop()
})

/** What the page of the choice says of each piece: its address, and how many pages it takes. */
async function readPromises(paper: string): Promise<void> {
  await page.goto(`${demo.url}/nights/${night}/papers?paper=${paper}`)
  for (const piece of await page.locator('.pieces li').all()) {
    const name = await piece.locator('input').getAttribute('name')
    const count = /(\d+) pages?\./.exec((await piece.textContent()) ?? '')?.[1]
    const href = (await piece.locator('a').getAttribute('href')) ?? ''
    promised.set(`${name?.replace('copies-', '')} ${paper}`, { href, pages: Number(count) })
  }
}

const promiseOf = (name: string, paper: string) => promised.get(`${name} ${paper}`) ?? { href: '', pages: 0 }
const addressOf = (name: string): string => `/nights/${night}/print/${name}`

async function print(address: string, picture: string) {
  const answer = await page.goto(demo.url + address)
  expect(answer?.status()).toBe(200)
  await page.evaluate('document.fonts.ready')
  const file = join(PICTURES, `${picture}.pdf`)
  await page.pdf({ path: file, preferCSSPageSize: true, printBackground: false })
  return { file, sheets: sheetsOf(file) }
}

/** The piece that is open meets WCAG 2.2 AA as far as axe can tell: as it is printed, and on the screen of a phone; one of them for each paper. */
async function meetsAxe(paper: string): Promise<void> {
  const media = paper === 'a4' ? 'print' : 'screen'
  const before = page.viewportSize()
  await page.emulateMedia({ media })
  if (media === 'screen') await page.setViewportSize(PHONE)
  const faults = await faultsOf(page)
  await page.emulateMedia({ media: 'print' })
  if (before) await page.setViewportSize(before)
  expect(faults).toEqual([])
}

const isSize = ([width, height]: readonly [number, number], sheet: { widthMm: number; heightMm: number }): boolean =>
  Math.abs(sheet.widthMm - width) <= 0.5 && Math.abs(sheet.heightMm - height) <= 0.5

const cases = PIECE_NAMES.flatMap((name) => PAPERS.map((paper) => [name, paper] as const))

describe.each(cases)('the printed %s on %s', (name, paper) => {
  it('is as many whole sheets as promised, in black letters that are large enough, and survives a copier', async () => {
    const { href, pages } = promiseOf(name, paper)
    const { file, sheets } = await print(href, `paper-${name}-${paper}`)
    expect(pages).toBeGreaterThan(0)
    expect(sheets).toHaveLength(pages)
    if (name in WHOLE) expect(pages).toBe(WHOLE[name])
    const [short, long] = SIZES[paper]
    for (const sheet of sheets) {
      expect(isSize([short, long], sheet) || isSize([long, short], sheet)).toBe(true)
      expect(sheet.ink).toBeGreaterThan(500)
      expect(sheet.copied / sheet.ink).toBeGreaterThan(COPIED.least)
      expect(sheet.copied / sheet.ink).toBeLessThan(COPIED.most)
    }
    expect(await page.evaluate<string[]>(CUT_TEXTS)).toEqual([])
    const texts = await page.evaluate<PrintedText[]>(PRINTED_TEXTS)
    const least = IN_THE_FIELD.includes(name) ? 13.99 : 11.99
    expect(texts.filter(({ pt }) => pt < least)).toEqual([])
    expect(texts.filter(({ fontStyle, ink }) => fontStyle !== 'normal' || ink !== 'rgb(0, 0, 0)')).toEqual([])
    const words = wordsOf(file)
    if (NAMING.includes(name)) expect(stops.filter((stop) => !words.includes(stop.name))).toEqual([])
    if (TIMED.includes(name)) expect(stops.filter(({ time }) => !words.includes(time))).toEqual([])
    await meetsAxe(paper)
  })
})

describe.each(PAPERS)('print tonight on %s', (paper) => {
  it('is one document of eight sheets at most, and names above what was left out', async () => {
    const { sheets } = await print(addressOf(`tonight?paper=${paper}`), `paper-tonight-${paper}`)
    expect(sheets.length).toBeGreaterThan(USUAL_SHEETS / 2)
    expect(sheets.length).toBeLessThanOrEqual(USUAL_SHEETS)
    await page.emulateMedia({ media: 'screen' })
    const bar = await page.locator('.paper-bar').first().textContent()
    await page.emulateMedia({ media: 'print' })
    expect(bar).toMatch(/left out to stay within 8 sheets.*Object cards \(\d+\)/)
  })

  it('stays at eight sheets in large letters, and cuts none of them', async () => {
    const { sheets } = await print(addressOf(`tonight?paper=${paper}&letters=large`), `paper-tonight-large-${paper}`)
    expect(sheets.length).toBeLessThanOrEqual(USUAL_SHEETS)
    expect(await page.evaluate<string[]>(CUT_TEXTS)).toEqual([])
  })

  it('repeats a piece as often as was asked, and prints nothing else', async () => {
    const once = promiseOf('tally', paper).pages
    const { sheets } = await print(
      addressOf(`tonight?paper=${paper}&copies-tally=3&copies-cards=0`),
      `paper-copies-${paper}`,
    )
    expect(sheets).toHaveLength(3 * once)
  })
})

describe('the page on which papers are chosen', () => {
  beforeAll(() => page.emulateMedia({ media: 'screen' }))
  afterAll(() => page.emulateMedia({ media: 'print' }))

  it('leads to the document that was chosen', async () => {
    await page.goto(`${demo.url}/nights/${night}/papers`)
    for (const field of await page.locator('.pieces input').all()) await field.fill('0')
    await page.fill('input[name=copies-tally]', '2')
    await page.selectOption('select[name=paper]', 'letter')
    await page.click('main form button')
    expect(await page.locator('main > .tally.page-letter').count()).toBe(2 * promiseOf('tally', 'letter').pages)
  })

  it('meets WCAG 2.2 AA as far as axe can tell, and needs no sideways scrolling on the narrowest phone', async () => {
    await page.setViewportSize({ width: 320, height: 640 })
    await page.goto(`${demo.url}/nights/${night}/papers`)
    expect(await page.evaluate<number>(SCROLL_WIDTH)).toBeLessThanOrEqual(320)
    await page.screenshot({ path: join(PICTURES, 'papers-phone.png'), fullPage: true })
    expect(await faultsOf(page)).toEqual([])
  })
})

it('prints lengths in the units that were asked for, and keeps them for other pages', async () => {
  const { file } = await print(addressOf('sheets?units=both'), 'paper-units')
  expect(wordsOf(file)).toMatch(/Eye height \d+ cm \(\d+ in\)/)
  await page.goto(`${demo.url}/nights/${night}/papers`)
  expect(await page.locator('select[name=units]').inputValue()).toBe('both')
})
