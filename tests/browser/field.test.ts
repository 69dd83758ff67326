import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { complaintsOf, launch } from '../support/chromium.ts'
import { SLOW_MS } from '../support/desk-folder.ts'
import { FieldService } from './offline-service.ts'

const PHONE = { width: 390, height: 844 }
const service = new FieldService()
let browser: Browser
let context: BrowserContext
let page: Page
/** A station with something on now and something next. */
let place = 0

beforeAll(async () => {
  await service.start()
  const { stations } = service.desk.marks.field(service.night.id)
  place = stations.findIndex(({ showing, next }) => showing !== null && next !== null)
  browser = await launch()
}, SLOW_MS)
afterAll(async () => {
  await browser?.close()
  await service.end()
})
beforeEach(async () => {
  context = await browser.newContext({ viewport: PHONE })
  await service.join(context, 'Ada')
  page = await context.newPage()
  await page.goto(service.stationPage(place))
})
afterEach(async () => {
  await context.close()
  // Each test begins with the night as it was planned.
  for (const { key } of service.desk.marks.field(service.night.id).stations.flatMap(lastOf)) {
    await service.record({ key: `back-${key}`.slice(0, 60), kind: 'undo', stationId: null, payload: { markKey: key } })
  }
})
const lastOf = ({ lastMarkKey }: { readonly lastMarkKey: string | null }) => (lastMarkKey ? [{ key: lastMarkKey }] : [])

const status = (): Promise<string | null> => page.textContent('[data-status]')
const statusIs = (text: string) => expect.poll(status, { timeout: 15_000 }).toBe(text)
const target = (): Promise<string | null> => page.textContent('.now .target')
const kinds = (from: number): string[] =>
  service
    .marks()
    .slice(from)
    .map(({ kind }) => kind)
/** Longer than the time in which a second tap counts as the same. */
const settle = (): Promise<void> => page.waitForTimeout(700)

describe('an operator with a phone', () => {
  it('goes on to the next stop in one tap without leaving the page, and takes it back by its name', async () => {
    expect(await page.evaluate('window.isSecureContext')).toBe(false)
    const complaints = complaintsOf(page, service.url)
    await page.evaluate('window.isTheSamePage = true')
    const [before, was] = [service.marks().length, await target()]
    const next = (await page.textContent('.main-act button'))?.replace('Now showing next: ', '').trim() ?? ''
    await page.click('.main-act button')
    await statusIs('Kept.')
    await expect.poll(target, { timeout: 3_000 }).toBe(next)
    expect(service.marks().at(-1)).toMatchObject({ kind: 'showing', by: 'Ada' })

    await settle()
    await page.click('#take-back summary')
    expect(await page.textContent('#take-back button')).toBe(`Take back: now showing ${next}`)
    await page.click('#take-back button')
    await expect.poll(target, { timeout: 3_000 }).toBe(was)
    expect(kinds(before)).toEqual(['showing', 'undo'])
    expect(await page.evaluate('window.isTheSamePage')).toBe(true)
    expect(complaints).toEqual([])
  })

  it('tells of trouble, which the row then shows to everyone, and that all is well again', async () => {
    await page.click('#trouble summary')
    await page.click('button:text-is("Help, please")')
    await statusIs('Kept.')
    await expect.poll(() => page.textContent('#trouble summary')).toContain('help is needed.')
    const row = await context.newPage()
    await row.goto(`${service.url}/field/${service.night.id}`)
    expect(await row.textContent('.row .trouble')).toBe('Trouble: help is needed.')
    await settle()
    await page.click('#trouble summary')
    await page.click('button:has-text("All is well again")')
    await expect.poll(() => row.isVisible('.row .trouble'), { timeout: 5_000 }).toBe(false)
  })

  it('shows something else that is good now, and says who saw it', async () => {
    await page.click('#else summary')
    const other = (await page.textContent('.else button'))?.replace('Show ', '').trim() ?? ''
    await page.click('.else button')
    await expect.poll(target, { timeout: 3_000 }).toBe(other)
    await settle()
    await page.click('#seen summary')
    await page.click('button:text-is("They saw it")')
    await expect.poll(() => service.marks().at(-1)?.kind).toBe('seen')
    expect(service.marks().at(-1)?.payload).toMatchObject({ who: 'they' })
  })

  it('counts two taps in quick succession as one', async () => {
    const before = service.marks().length
    await page.dblclick('.main-act button')
    await statusIs('Kept.')
    await settle()
    expect(kinds(before)).toEqual(['showing'])
  })
})

describe('a tap that is not answered as it should be', () => {
  const POSTED = '**/api/nights/*/marks'

  it.each([
    ['that it is no address of the laptop', 421, 'application/json', '{}', 'no longer answers to the address'],
    ['that the phone is not in', 403, 'application/json', '{}', 'until you join again'],
    ['with the page of a café', 200, 'text/html', '<h1>Welcome</h1>', '1 mark waiting'],
    ['of another laptop', 200, 'application/json', '{"kept": []}', '1 mark waiting'],
    ['that the disk is full', 507, 'application/json', '{}', '1 mark waiting'],
    ['that the night is gone', 404, 'application/json', '{}', '1 mark waiting'],
    ['too large', 413, 'application/json', '{}', '1 mark waiting'],
    ['refused without a word why', 422, 'application/json', '{}', '1 mark waiting'],
  ])('is kept and counted, and delivered once: answered %s (%i)', async (_what, code, contentType, body, said) => {
    const before = service.marks().length
    await page.route(POSTED, (route) => route.fulfill({ status: code, contentType, body }))
    await page.click('.main-act button')
    await expect.poll(status).toContain(said)
    expect(kinds(before)).toEqual([])
    await page.unroute(POSTED)
    await statusIs('Kept.')
    expect(kinds(before)).toEqual(['showing'])
  })

  it('is set apart with its reason when it is refused, and is given up by a tap', async () => {
    const before = service.marks().length
    await page.evaluate(`document.querySelector('.main-act input[name=targetKey]').value = 'nothing-such'`)
    await page.click('.main-act button')
    await page.waitForSelector('[data-refused] li:has-text("This is not on the list of things to show")')
    expect(kinds(before)).toEqual([])
    await page.reload()
    expect(await page.textContent('[data-refused] li')).toMatch(/^\s*Now showing next: .+This is not on the list/)
    await page.click('button:has-text("Drop “Now showing next:")')
    expect(await page.isVisible('[data-refused]')).toBe(false)
    await page.reload()
    expect(await page.isVisible('[data-refused]')).toBe(false)
  })
})

describe('a phone without scripts', () => {
  it('makes every act by plain forms, looks things up, and comes back to the same page', async () => {
    const plain = await browser.newContext({ javaScriptEnabled: false, viewport: PHONE })
    await service.join(plain, 'Ben')
    const phone = await plain.newPage()
    const address = service.stationPage(place)
    const before = service.marks().length
    const act = async (fold: string | null, button: string) => {
      await phone.goto(address)
      if (fold !== null) await phone.click(`${fold} summary`)
      await phone.click(button)
      expect(phone.url()).toBe(address)
    }
    await act('#trouble', 'button:text-is("Cloud")')
    await act(null, '.main-act button')
    await act('#seen', 'button:text-is("Half of them")')
    await act('#skip', '#skip button:text-is("Trees")')
    await act('#else', '.else button')
    await act('#take-back', '#take-back button')
    expect(kinds(before)).toEqual(['trouble', 'showing', 'seen', 'skipped', 'showing', 'undo'])

    await phone.click('#else summary')
    await phone.fill('#else-query', 'saturn')
    await phone.click('#else button:text-is("Look it up")')
    expect(phone.url()).toContain('?q=saturn#else')
    expect(await phone.textContent('.found')).toContain('Saturn')
    await plain.close()
  })
})
