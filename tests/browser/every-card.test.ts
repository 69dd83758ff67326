import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { readStories } from '../../db/catalogue/stories.ts'
import { readWorldEvents } from '../../db/catalogue/world-events.ts'
import { launch } from '../support/chromium.ts'
import { OUTREACH } from '../support/evenings.ts'
import { fakeDesk } from '../support/fake-desk.ts'
import { A_TOUR } from '../support/field-data.ts'
import { CUT_CARDS, TEXT_LOOKS, type TextLook } from '../support/in-page.ts'
import { pagedApp } from '../support/paged-app.ts'
import { servedPage } from '../support/served-page.ts'
import { HOST, type TestApp } from '../support/web.ts'

const objects = new Map(OUTREACH.map((object) => [object.key, object]))
const stories = new Map(readStories('en').map((story) => [story.key, story]))
const events = readWorldEvents('en')
const [stop] = A_TOUR.stops

let service: TestApp
let browser: Browser
let page: Page

/** The service over a programme that shows everything of which a story is told. */
beforeAll(async () => {
  const { desk } = fakeDesk()
  const stops = stop === undefined ? [] : [...stories.keys()].map((targetKey) => ({ ...stop, targetKey }))
  service = await pagedApp({
    desk: {
      ...desk,
      objects: {
        ...desk.objects,
        show: (key) => objects.get(key),
        story: (key) => stories.get(key),
        worldEvents: () => events,
      },
      tours: { ...desk.tours, current: (nightId) => ({ ...A_TOUR, nightId, stops, spares: [] }) },
    },
  })
  browser = await launch()
  page = await servedPage(browser, service)
})
afterAll(async () => {
  await browser?.close()
  await service?.app.close()
})

const PRINTED = [
  ['four', 'a4'],
  ['four', 'letter'],
  ['a6', 'a4'],
  ['5x3', 'letter'],
  ['6x4', 'letter'],
] as const

it.each(PRINTED)(
  'every story that ships fits its card of size %s on %s paper, with its back and without',
  async (size, paper) => {
    await page.emulateMedia({ media: 'print' })
    for (const backs of ['yes', 'no']) {
      await page.goto(`http://${HOST}/nights/night-1/print/cards?paper=${paper}&cards=${size}&backs=${backs}`)
      await page.evaluate('document.fonts.ready')
      expect(await page.locator('.hole').count()).toBe(stories.size)
      expect(await page.evaluate<string[]>(CUT_CARDS)).toEqual([])
      const looks = await page.evaluate<TextLook[]>(TEXT_LOOKS)
      expect(Math.min(...looks.map(({ pt }) => pt))).toBeGreaterThanOrEqual(11.99)
      expect(looks.filter(({ fontStyle }) => fontStyle !== 'normal')).toEqual([])
    }
  },
)
