import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { readStories } from '../../db/catalogue/stories.ts'
import { readWorldEvents } from '../../db/catalogue/world-events.ts'
import type { ShowObject, Story } from '../../server/tours/target.ts'
import { CARD_SIZES } from '../../server/web/pages/card-fit.ts'
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

/** Words as long as many languages make them, a third more letters than the English ones. */
const stretched = (text: string): string => text.replaceAll(/(\p{L})(?=\p{L}{2}\b)/gu, '$1ng')
/** A face with all that a host may write: five parts of 180 letters. */
const FULL = 'Kugelsternhaufen Andromedanebel '.repeat(6).slice(0, 180)
const LONG_NAME = 'The great bright double cluster of the sword hand of Perseus'
const STRETCHED = new Map(
  [...stories.values()].map(({ key, see, lookFor, answer, ...story }) => [
    key,
    { ...story, key, language: 'de', see: stretched(see), lookFor: stretched(lookFor), answer: stretched(answer) },
  ]),
)
const WHOLE: Partial<Story> = { see: FULL, lookFor: FULL, how: FULL, compare: FULL, answer: FULL }

let service: TestApp
let browser: Browser
let page: Page
let isFull = false
let hasLongNames = false

/** The service over a programme that shows everything of which a story is told, in English and in invented German. */
beforeAll(async () => {
  const { desk } = fakeDesk()
  const stops = stop === undefined ? [] : [...stories.keys()].map((targetKey) => ({ ...stop, targetKey }))
  const told = (key: string, language: string): Story | undefined => {
    const story = (language === 'de' ? STRETCHED : stories).get(key)
    return story && isFull ? { ...story, ...WHOLE } : story
  }
  const named = (key: string): ShowObject | undefined => {
    const object = objects.get(key)
    return object && hasLongNames ? { ...object, name: LONG_NAME } : object
  }
  service = await pagedApp({
    desk: {
      ...desk,
      objects: { ...desk.objects, show: named, story: told, worldEvents: () => events },
      words: { ...desk.words, languages: () => ['de', 'en'] },
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

async function open(query: string): Promise<void> {
  await page.emulateMedia({ media: 'print' })
  await page.goto(`http://${HOST}/nights/night-1/print/cards?${query}`)
  await page.evaluate('document.fonts.ready')
  expect(await page.locator('.hole').count()).toBe(stories.size)
}

it.each(['a4', 'letter'])(
  'cards in two languages hold all their words on %s paper, none under 12 points',
  async (paper) => {
    isFull = false
    await open(`paper=${paper}&second=de`)
    expect(await page.evaluate<string[]>(CUT_CARDS)).toEqual([])
    expect(await page.locator('.card .second[lang="de"]').count()).toBe(stories.size)
    const looks = await page.evaluate<TextLook[]>(TEXT_LOOKS)
    expect(Math.min(...looks.map(({ pt }) => pt))).toBeGreaterThanOrEqual(11.99)
  },
)

it.each(CARD_SIZES.flatMap((size) => ['', '&second=de'].map((second) => `cards=${size}${second}`)))(
  'cards with all that a host may write hold it, or what is most needed of it (%s)',
  async (query) => {
    isFull = true
    hasLongNames = true
    await open(query)
    expect(await page.evaluate<string[]>(CUT_CARDS)).toEqual([])
    hasLongNames = false
  },
)

it('nearly all cards of the stories that ship are set in the larger type', async () => {
  isFull = false
  await open('')
  const tight = await page.locator('.card-tight').count()
  expect(tight / stories.size).toBeLessThan(0.05)
})
