import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { south } from '../../seed-demo/south.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { svgElement, svgText } from '../../server/drawings/svg.ts'
import { loadAssets } from '../../server/web/assets.ts'
import { CARD_SIZES, type CardSize } from '../../server/web/pages/card-fit.ts'
import { type PrintSubject, papersPage } from '../../server/web/pages/papers.ts'
import type { SizedPicture } from '../../server/web/pages/print-pictures.ts'
import { printed } from '../../server/web/routes/print-subject.ts'
import { pageWriter } from '../../server/web/views.ts'
import { PICTURES as FOLDER, launch, readPdf } from '../support/chromium.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, standingClock } from '../support/desk-folder.ts'
import { CUT_CARDS } from '../support/in-page.ts'
import { HOST as READER } from '../support/page-data.ts'
import { A_FULL_PRINT } from '../support/paper-pages.ts'
import { servedPage } from '../support/served-page.ts'
import { HOST, type TestApp, testApp } from '../support/web.ts'

const assets = await loadAssets()
const write = pageWriter(assets)
const LONG_NAME = 'The great bright double cluster of the sword hand of Perseus'
const NOTE = 'From the bright star go six degrees toward nine o’clock, one field of the finder, to the next.'
/** How high the picture of a field is, in fifths of a millimetre. */
const HEIGHTS = [236, 250, 257, 278, 300, 330]

const folder = freshFolder()
let desk: Desk
let nights: readonly string[] = []
let service: TestApp
let browser: Browser
let page: Page
beforeAll(async () => {
  desk = await openDesk(folder, { clock: standingClock(AFTERNOON) })
  nights = [north, south].map((evening) => seedEvening(desk, evening).id)
  for (const id of nights) await desk.tours.build(id)
  service = await testApp({ assets, writePage: write })
  browser = await launch()
  page = await servedPage(browser, service)
  await page.emulateMedia({ media: 'print' })
  await page.goto(`http://${HOST}/sign-in`)
})
afterAll(async () => {
  await browser?.close()
  await service?.app.close()
  await desk?.close()
  removeFolder(folder)
})

const picture = (high: number): SizedPicture => ({
  svg: svgElement(
    'svg',
    { viewBox: `0 0 420 ${high}`, role: 'img' },
    svgElement('text', { x: 0, y: 30, 'font-size': 22 }, svgText('Letters')),
    svgElement('rect', { x: 0, y: 0, width: 420, height: high, fill: 'none', stroke: 'currentColor' }),
  ),
  notes: [NOTE, NOTE, NOTE, NOTE],
  widthMm: 84,
  heightMm: high / 5,
  legend: NOTE,
})

/** Prints cards with pictures of a height and answers what is wrong with them. */
async function print(size: CardSize, high: number, paper: 'a4' | 'letter') {
  const subject: PrintSubject = {
    ...A_FULL_PRINT,
    look: { paper, letters: 'normal' },
    names: { ...A_FULL_PRINT.names, nameOf: () => LONG_NAME },
    pictures: {
      ...A_FULL_PRINT.pictures,
      field: () => picture(high),
      finder: (_key, _at, heightMm) => picture(5 * (heightMm ?? 0)),
    },
    cards: { size, hasBacks: true },
  }
  await page.setContent(await write(service.app, 'papers', papersPage(READER, subject, 'cards')))
  await page.evaluate('document.fonts.ready')
}

/** How high the letters of each picture are in print, in points, and how far it is from the edges of its page, in millimetres. */
const PICTURES = `[...document.querySelectorAll('.card-picture svg')].map((svg) => {
  const [box, page] = [svg, svg.closest('.card-page')].map((element) => element.getBoundingClientRect())
  const mm = 96 / 25.4
  return {
    pt: (22 * box.width / 420) * 0.75,
    edgeMm: Math.min(box.left - page.left, page.right - box.right, box.top - page.top, page.bottom - box.bottom) / mm,
  }
})`

const HEIGHTS_MM = `[...document.querySelectorAll('.card-picture svg')]
  .map((svg) => (svg.getBoundingClientRect().height * 25.4) / 96)`

describe('pictures on the backs of cards', () => {
  it.each(CARD_SIZES)('keep their letters at 12 points and leave nothing cut, on size %s', async (size) => {
    for (const paper of ['a4', 'letter'] as const) {
      for (const high of HEIGHTS) {
        await print(size, high, paper)
        expect(await page.evaluate<string[]>(CUT_CARDS), `${high}`).toEqual([])
        const found = await page.evaluate<{ readonly pt: number; readonly edgeMm: number }[]>(PICTURES)
        expect(found.length > 0).toBe(true)
        expect(found.filter(({ pt, edgeMm }) => pt < 12 || edgeMm < 4.5)).toEqual([])
      }
    }
  })
})

describe('cards of the demo nights', () => {
  it.each(CARD_SIZES)('have one back each that holds its pictures as large as they say, on size %s', async (size) => {
    for (const id of nights) {
      const cards = { size, hasBacks: true }
      const built = await printed(desk, { viewer: READER, id, query: {}, cards }, (subject) =>
        papersPage(READER, subject, 'cards'),
      )
      await page.setContent(await write(service.app, 'papers', built))
      await page.evaluate('document.fonts.ready')
      expect(await page.evaluate<string[]>(CUT_CARDS)).toEqual([])
      const fronts = await page.locator('.hole').count()
      expect(await page.locator('.card-back').count()).toBe(fronts)
      const heightsMm = await page.evaluate<number[]>(HEIGHTS_MM)
      expect(heightsMm.length).toBeGreaterThanOrEqual(fronts)
      expect(heightsMm.filter((mm) => mm < 46 || mm > 109)).toEqual([])
    }
  })
})

describe('cards in print', () => {
  it.each([
    ['four', 'a4', 210, 297],
    ['four', 'letter', 215.9, 279.4],
    ['a6', 'a4', 105, 148],
    ['5x3', 'letter', 127, 76.2],
    ['6x4', 'letter', 152.4, 101.6],
  ] as const)(
    'of size %s on %s paper have pages of %d x %d mm, and none that is empty',
    async (size, paper, wide, high) => {
      await print(size, 236, paper)
      const path = join(FOLDER, `cards-${size}-${paper}.pdf`)
      await page.pdf({ path, preferCSSPageSize: true })
      const { pages, widthMm, heightMm } = readPdf(path)
      expect(Math.abs(widthMm - wide)).toBeLessThan(0.3)
      expect(Math.abs(heightMm - high)).toBeLessThan(0.3)
      expect(pages).toBe(await page.locator('.card-page').count())
    },
  )
})
