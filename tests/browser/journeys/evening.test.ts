import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { complaintsOf, FIELD_NAME, launch } from '../../support/chromium.ts'
import { type Demo, startDemo } from '../../support/demo.ts'
import { FIELD_WAYS, Person, pageOn, type Way } from '../../support/journey.ts'

const STATION = 'Twin tubes'
const TAKEN_BACK = ['help wanted', 'Pleiades is over', 'now showing Pleiades', 'now showing Double Cluster'] as const
/** Longer than the time in which a second tap counts as the same. */
const SECOND_TAP_MS = 700
/** Two cores that are shared by much else. */
const SOON = { timeout: 20_000 }

let demo: Demo
let browser: Browser
let field = ''

beforeAll(async () => {
  demo = await startDemo('--lan', '--name', FIELD_NAME)
  field = demo.url.replace('127.0.0.1', FIELD_NAME)
  browser = await launch()
})
afterAll(async () => {
  await browser?.close()
  await demo?.stop()
})

const person = async (way: Way): Promise<Person> => new Person(await pageOn(browser, way), way)

const settled = (page: Page) => expect.poll(() => page.textContent('[data-status]'), SOON).toBe('Kept.')

/** An act of the field: it stays on its page, and is kept before the next one. */
async function act(one: Person, name: string | RegExp): Promise<void> {
  await one.rest(SECOND_TAP_MS)
  await one.press('button', name, 'main')
  await settled(one.page)
}

interface ReadingOut {
  readonly host: Person
  readonly code: string
}

/** The host signs in, sees the board, and reads the code out from the page of the phones. */
async function readOut(way: Way): Promise<ReadingOut> {
  const host = await person(way)
  await host.open(`${demo.url}/sign-in`)
  await host.type('PIN', demo.pin)
  await host.go('button', 'Sign in', 'main')
  await host.go('link', 'Phones')
  return { host, code: (await host.page.locator('.scan-said .numeral').first().textContent()) ?? '' }
}

const hosts = new Map<string, Promise<ReadingOut>>()
/** The pages of the host have the day look alone: both looks of the field go with the same host. */
function hostOf(way: Way): Promise<ReadingOut> {
  const key = JSON.stringify([way.viewport, way.byKeys])
  const host = hosts.get(key) ?? readOut(way)
  hosts.set(key, host)
  return host
}

async function joinByCode(way: Way, name: string, role: string, code: string): Promise<Person> {
  const one = await person(way)
  await one.open(`${field}/join`)
  if (way.look === 'day') await one.go('link', 'Day look')
  await one.type('Code', code)
  await one.type('Your name', name)
  await one.choose(role)
  await one.go('button', 'Join')
  expect(await one.page.getAttribute('html', 'data-look')).toBe(way.look)
  return one
}

/** Shows what is planned, goes on to the next, asks for help, and reads the check of the half hour; answers the station's address. */
async function showTwo(one: Person): Promise<string> {
  const { page } = one
  await one.go('button', `Stand here: ${STATION}`)
  await act(one, 'Now showing next: Double Cluster')
  await expect.poll(() => page.textContent('.now .target'), SOON).toContain('Double Cluster')
  await act(one, 'Now showing next: Pleiades')
  await expect.poll(() => page.textContent('.now .target'), SOON).toContain('Pleiades')
  await act(one, 'It is over: Pleiades was shown')
  await one.look()
  const station = page.url()
  await act(one, 'Help, please')
  await one.go('link', 'Half-hour check', 'main')
  expect(await page.textContent('main')).toContain('Pleiades')
  return station
}

/** Leaves the station as it was found. */
async function takeBackAll(one: Person, station: string): Promise<void> {
  await one.open(station)
  for (const what of TAKEN_BACK) await act(one, `Take back: ${what}`)
}

async function countTwo(helper: Person): Promise<readonly [number, number]> {
  expect(new URL(helper.page.url()).pathname).toMatch(/\/line$/)
  const count = (sort: string) => helper.page.textContent(`[data-count=${sort}]`).then(Number)
  const [adults, children] = [await count('adults'), await count('children')]
  await act(helper, '+1 adult')
  await act(helper, '+1 child')
  expect([await count('adults'), await count('children')]).toEqual([adults + 1, children + 1])
  await helper.look()
  return [adults + 1, children + 1]
}

/** Somebody without a code, who opens the address and is led to what there is to see; axe looks at each page. */
async function visit(way: Way): Promise<Person> {
  const visitor = await person(way)
  await visitor.open(demo.url)
  await visitor.go('link', 'What you can see now', '.next-step')
  if (way.look === 'lamp') await visitor.go('link', 'Red lamp look')
  expect(await visitor.page.getAttribute('html', 'data-look')).toBe(way.look)
  await visitor.press('button', 'I have seen: Moon')
  await expect.poll(() => visitor.page.textContent('[data-seen-text]'), SOON).toContain('Moon')
  return visitor
}

describe('an evening of the field', () => {
  it.each(FIELD_WAYS)('$name', async (way) => {
    const { host, code } = await hostOf(way)
    expect(code).toMatch(/^\w{4} \w{4}$/)
    const place = FIELD_WAYS.indexOf(way)
    const ada = await joinByCode(way, `Ada ${place}`, 'I stand at a telescope', code)
    const cleo = await joinByCode(way, `Cleo ${place}`, 'I help with the line', code)
    const complaints = [ada, cleo].map(({ page }) => complaintsOf(page, field))
    const station = await showTwo(ada)
    const counted = await countTwo(cleo)

    await host.open(demo.url)
    const said = await host.page.textContent('main')
    expect(said).toContain(`${STATION}: help is needed.`)
    const { nights } = await (await host.page.request.get(`${demo.url}/api/nights`)).json()
    const night = nights.find(({ date }: { date: string }) => date === '2026-12-17')
    const { field: now } = await (await host.page.request.get(`${demo.url}/api/nights/${night.id}/changes`)).json()
    expect([now.adultsIn, now.childrenIn]).toEqual(counted)
    const visitor = await visit(way)
    await takeBackAll(ada, station)
    for (const { faults } of [host, ada, cleo, visitor]) expect(faults).toEqual([])
    expect(complaints).toEqual([[], []])
    for (const { page } of [ada, cleo, visitor]) await page.context().close()
  })
})
