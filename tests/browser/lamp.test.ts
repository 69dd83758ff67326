import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { RouteRole } from '../../server/web/roles.ts'
import { brightness, launch, PICTURES } from '../support/chromium.ts'
import { SLOW_MS } from '../support/desk-folder.ts'
import { faultsOf, smallestTextPx } from '../support/field-checks.ts'
import {
  BORDER_CONTRASTS,
  type Box,
  type Contrast,
  FOCUS_CONTRAST,
  SCROLL_WIDTH,
  TARGETS,
  TEXT_CONTRASTS,
} from '../support/in-page.ts'
import { testApp } from '../support/web.ts'
import { FieldService } from './offline-service.ts'

const PHONE = { width: 390, height: 844 }
const NARROW = { width: 320, height: 640 }
const TEXT_RATIO = 4.5
const LINE_RATIO = 3
const DARK = 8
const LEAST_TEXT_PX = 18
const TARGET_PX = 48
/** More than any page has things that the keyboard comes to. */
const MOST_STOPS = 120

/** Every page that is read by the lamp, by the address of its route, and what is opened on it before it is looked at. */
const PAGES: Readonly<Record<string, { readonly query?: string; readonly open?: string }>> = {
  '/field/:nightId': {},
  '/field/:nightId/:stationId': { query: 'q=nebula&', open: 'details' },
  '/field/:nightId/line': { open: 'details' },
  '/tonight/:nightId': {},
  '/join': {},
  '/nights/:id/hole': { query: 'open=w,sw,s&' },
  '/nights/:id/check': {},
  '/nights/:id/align': { query: 'at=17:30&', open: 'details' },
  '/nights/:id/set-up': {},
  '/nights/:id/checklists': {},
  '/nights/:id/aloud': {},
  '/nights/:id/faults': {
    query: 'stage=both&first=hip91262&second=hip24608&aimed=moon&seen=off&side=1&',
    open: 'details',
  },
  '/objects/:key': {},
  '/reading': { query: 'from=/nights&' },
}
const ROUTES = Object.keys(PAGES)
/** Pages whose targets, words, reflow and accessibility are measured beside what they do. */
const MEASURED_ELSEWHERE = ['/field/:nightId', '/field/:nightId/:stationId', '/field/:nightId/line', '/join']

const service = new FieldService()
const routes: RouteRole[] = []
let browser: Browser
let page: Page

beforeAll(async () => {
  await service.start()
  const { app } = await testApp({ routeSeen: (route) => routes.push(route) })
  await app.close()
  const trouble = { key: 'trouble-1', kind: 'trouble', stationId: stationId(), payload: { what: 'help' } } as const
  await service.record(trouble)
  await service.record({ key: 'clouds-01', kind: 'clouds', stationId: null, payload: { shut: ['n'], minutes: 60 } })
  browser = await launch()
  const context = await browser.newContext({ viewport: PHONE })
  await service.join(context, 'Ada')
  page = await context.newPage()
}, SLOW_MS)
afterAll(async () => {
  await browser?.close()
  await service.end()
})

const stationId = (): string => service.night.stations[0]?.id ?? ''

/** The address of a route on the night of the tests, by the lamp. */
function addressOf(route: string): string {
  const path = route
    .replace('/nights/:id', `/nights/${service.night.id}`)
    .replace(':nightId', service.night.id)
    .replace(':stationId', stationId())
    .replace(':key', 'm42')
  return `${service.url}${path}?${PAGES[route]?.query ?? ''}look=lamp`
}

async function open(route: string, viewport = PHONE): Promise<void> {
  await page.setViewportSize(viewport)
  const answer = await page.goto(addressOf(route))
  expect(answer?.status()).toBe(200)
  expect(await page.evaluate('isSecureContext')).toBe(false)
  const inside = PAGES[route]?.open
  if (inside) await page.evaluate(`for (const each of document.querySelectorAll('${inside}')) each.open = true`)
}

const below = (contrasts: readonly Contrast[], least: number): string[] =>
  contrasts.filter(({ ratio }) => ratio < least).map(({ what, ratio }) => `${ratio.toFixed(2)}: ${what}`)

/** How everything that the keyboard comes to is marked, from the first to the last. */
async function focused(): Promise<Contrast[]> {
  const found: Contrast[] = []
  for (let stop = 0; stop < MOST_STOPS; stop++) {
    await page.keyboard.press('Tab')
    const at = await page.evaluate<Contrast | undefined>(FOCUS_CONTRAST)
    if (!at) return found
    found.push(at)
  }
  throw new Error('The keyboard never comes to the end')
}

describe('the pages that are read by the lamp', () => {
  it('are all in the list of this test', async () => {
    const pages = routes.filter(({ method, url }) => method === 'GET' && !url.startsWith('/api/'))
    await open('/join')
    const red: string[] = []
    for (const { url } of pages) {
      const html = await page.evaluate<string>(`fetch('${addressOf(url)}').then((answer) => answer.text())`)
      if (/href="\/assets\/lamp\./.test(html)) red.push(url)
    }
    expect(red.sort()).toEqual([...ROUTES].sort())
  })
})

describe.each(ROUTES)('by the lamp, %s', (route) => {
  it('has words that stand out, 4.5 to 1', async () => {
    await open(route)
    const texts = await page.evaluate<Contrast[]>(TEXT_CONTRASTS)
    expect(texts.length).toBeGreaterThan(5)
    expect(below(texts, TEXT_RATIO)).toEqual([])
  })

  it('has lines, controls and a mark of the keyboard that stand out, 3 to 1', async () => {
    await open(route)
    expect(below(await page.evaluate<Contrast[]>(BORDER_CONTRASTS), LINE_RATIO)).toEqual([])
    const stops = await focused()
    expect(stops.length).toBeGreaterThan(1)
    expect(below(stops, LINE_RATIO)).toEqual([])
  })

  it('is red alone, with something under the finger and something under the keyboard too', async () => {
    await open(route)
    await page.keyboard.press('Tab')
    await page.keyboard.press('Tab')
    const link = page.locator('main :is(button, a)').last()
    await link.hover()
    const { red, greenOrBlue } = await brightness(page)
    await page.screenshot({ path: join(PICTURES, `lamp ${route.replaceAll(/\W+/g, ' ').trim()}.png`), fullPage: true })
    expect(greenOrBlue).toBeLessThanOrEqual(DARK)
    expect(red).toBeGreaterThan(240)
  })
})

describe.each(ROUTES.filter((route) => !MEASURED_ELSEWHERE.includes(route)))('on the narrowest phone, %s', (route) => {
  it('fits, reads large, taps large, and axe finds nothing', async () => {
    await open(route, NARROW)
    expect(await page.evaluate<number>(SCROLL_WIDTH)).toBeLessThanOrEqual(NARROW.width)
    expect(await smallestTextPx(page)).toBeGreaterThanOrEqual(LEAST_TEXT_PX)
    const targets = await page.evaluate<Box[]>(TARGETS)
    expect(targets.filter(({ width, height }) => Math.min(width, height) < TARGET_PX)).toEqual([])
    expect(await faultsOf(page)).toEqual([])
  })
})
