import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { brightness, complaintsOf, launch, PICTURES } from '../support/chromium.ts'
import { SLOW_MS } from '../support/desk-folder.ts'
import { faultsOf, lowestPx, smallestTextPx } from '../support/field-checks.ts'
import { SCROLL_WIDTH } from '../support/in-page.ts'
import { FieldService } from './offline-service.ts'

const IN_THE_EVENING = '2026-12-17T17:40:00Z'
const PHONE = { width: 390, height: 844 }
const NARROW = { width: 320, height: 844 }
const WIDE = { width: 1200, height: 900 }
const LOOKS = ['lamp', 'day'] as const
const MAIN_ACT_PX = 64
/** Two cores that are shared by much else. */
const SOON = { timeout: 20_000 }

const service = new FieldService()
let browser: Browser
let context: BrowserContext
let page: Page
let address = ''

beforeAll(async () => {
  await service.start()
  browser = await launch()
  context = await browser.newContext({ viewport: PHONE })
  await service.join(context, 'Ada')
  page = await context.newPage()
  address = `${service.url}/field/${service.night.id}/line`
}, SLOW_MS)
afterAll(async () => {
  await browser?.close()
  await service.end()
})

const kept = (kind: string) => service.marks().filter((mark) => mark.kind === kind)
const count = (sort: 'adults' | 'children') => page.textContent(`[data-count=${sort}]`).then(Number)
const timingOf = (at: number) => page.locator('[data-timing]').nth(at)

/** Lets a timing that runs have begun so many seconds earlier, as if the helper had stood there so long. */
const letPass = async (seconds: number): Promise<void> => {
  await page.evaluate(`(() => {
    const name = 'timing-${service.night.id}'
    const begun = JSON.parse(localStorage.getItem(name))
    for (const id of Object.keys(begun)) begun[id] -= ${seconds * 1000}
    localStorage.setItem(name, JSON.stringify(begun))
  })()`)
  await page.reload()
}

describe('the line helper’s page on a phone of the field', () => {
  it.each(LOOKS)(
    'works by name and without a secure context, with nothing to complain of in the %s look',
    async (look) => {
      const complaints = complaintsOf(page, service.url)
      await page.goto(`${address}?look=${look}`)
      expect(await page.evaluate('isSecureContext')).toBe(false)
      await page.locator('[data-timing-start]').first().click()
      expect(await faultsOf(page)).toEqual([])
      expect(complaints).toEqual([])
      await page.locator('[data-timing-forget]').first().click()
    },
  )

  it('holds no green or blue in the lamp look, with a timing running and a line to be closed', async () => {
    await page.goto(`${address}?look=lamp`)
    await page.locator('[data-timing-start]').first().click()
    await page.locator('input[type=number]').first().focus()
    service.clock.moveTo('2026-12-17T19:58:00Z')
    await page.reload()
    expect(await page.isVisible('.line-close-now')).toBe(true)
    const { red, greenOrBlue } = await brightness(page)
    expect(red).toBeGreaterThan(200)
    expect(greenOrBlue).toBeLessThanOrEqual(8)
    await page.screenshot({ path: join(PICTURES, 'line-page-lamp.png'), fullPage: true })
    service.clock.moveTo(IN_THE_EVENING)
    await page.locator('[data-timing-forget]').first().click()
  })

  it.each([
    ['the narrowest phone', NARROW],
    ['a laptop', WIDE],
  ])('needs no sideways scrolling on %s, and its acts and words are large', async (_what, viewport) => {
    await page.setViewportSize(viewport)
    await page.goto(`${address}?look=day`)
    await page.locator('[data-timing-start]').first().click()
    expect(await page.evaluate<number>(SCROLL_WIDTH)).toBeLessThanOrEqual(viewport.width)
    expect(await lowestPx(page, 'main button, main input:not([type=hidden]), main summary')).toBeGreaterThanOrEqual(
      MAIN_ACT_PX,
    )
    expect(await smallestTextPx(page)).toBeGreaterThanOrEqual(18)
    await page.screenshot({ path: join(PICTURES, `line-page-${viewport.width}.png`), fullPage: true })
    await page.locator('[data-timing-forget]').first().click()
    await page.setViewportSize(PHONE)
  })

  it('says nothing to do to a phone that has not joined', async () => {
    const visitor = await browser.newContext({ viewport: PHONE })
    const reading = await visitor.newPage()
    await reading.goto(address)
    expect(await reading.locator('form').count()).toBe(0)
    expect(await reading.textContent('.read-only')).toContain('You can read here')
    await visitor.close()
  })
})

describe('timing ten people', () => {
  it('outlives a reload, and makes exactly one act of it', async () => {
    await page.goto(address)
    const station = await timingOf(1).getAttribute('data-timing')
    await timingOf(1).locator('[data-timing-start]').click()
    await letPass(460)
    expect(await timingOf(1).locator('[data-timing-seconds]').textContent()).toMatch(/^Seconds: 46\d$/)
    expect(await timingOf(0).locator('[data-timing-stop]').isVisible()).toBe(false)
    await timingOf(1).locator('input[name=people]').fill('8')
    await timingOf(1).locator('[data-timing-stop]').dblclick()
    await page.waitForSelector('text=/Timed at 18:(39|40): 5\\d seconds for each person/')
    expect(kept('timed')).toHaveLength(1)
    const [timed] = kept('timed')
    expect(timed).toMatchObject({ stationId: station, by: 'Ada', payload: { people: 8 } })
    expect(Math.floor(Number(timed?.payload.seconds) / 10)).toBe(46)
    await timingOf(1).locator('[data-timing-start]').waitFor()
  })

  it('of less than twenty seconds is none, and says so', async () => {
    const before = kept('timed').length
    await timingOf(0).locator('[data-timing-start]').click()
    await timingOf(0).locator('[data-timing-stop]').click()
    expect(await timingOf(0).locator('[data-timing-note]').textContent()).toContain('Less than 20 seconds')
    await timingOf(0).locator('[data-timing-start]').waitFor()
    expect(kept('timed')).toHaveLength(before)
  })

  it('goes on while another phone acts and the page changes under it', async () => {
    await timingOf(0).locator('[data-timing-start]').click()
    await letPass(100)
    await service.record({
      key: 'another-phone',
      kind: 'counted',
      stationId: null,
      payload: { adults: 3, children: 0 },
    })
    await expect.poll(() => count('adults'), SOON).toBe(3)
    expect(await timingOf(0).locator('[data-timing-seconds]').textContent()).toMatch(/^Seconds: 10\d$/)
    await timingOf(0).locator('[data-timing-forget]').click()
    expect(kept('timed')).toHaveLength(1)
  })
})

describe('the gate', () => {
  it('counts as fast as people come, and each tap once', async () => {
    await page.goto(address)
    const [adults, before] = [await count('adults'), kept('counted').length]
    for (let tap = 0; tap < 6; tap++) await page.click('button:text-is("+1 adult")')
    expect(await count('adults')).toBe(adults + 6)
    await page.waitForSelector('text=Kept.')
    await expect.poll(() => kept('counted').length, SOON).toBe(before + 6)
    await page.click('button:text-is("−1 adult")')
    await page.click('button:text-is("+ family of four")')
    await expect
      .poll(() => service.desk.marks.field(service.night.id))
      .toMatchObject({ adultsIn: adults + 7, childrenIn: 2 })
    await expect.poll(() => count('adults'), SOON).toBe(adults + 7)
  })

  it('counts for another phone too', async () => {
    const adults = await count('adults')
    await service.record({ key: 'another-gate', kind: 'counted', stationId: null, payload: { adults: 2, children: 0 } })
    await expect.poll(() => count('adults'), SOON).toBe(adults + 2)
  })

  it('loses nothing while the laptop is out of reach, shows every tap at once, and delivers each once', async () => {
    const [adults, children, before] = [await count('adults'), await count('children'), kept('counted').length]
    await context.setOffline(true)
    for (const tap of ['+1 child', '+1 child', '+1 adult']) await page.click(`button:text-is("${tap}")`)
    expect([await count('adults'), await count('children')]).toEqual([adults + 1, children + 2])
    await page.waitForSelector('[data-status]:has-text("3 marks waiting")')
    expect(kept('counted')).toHaveLength(before)
    await context.setOffline(false)
    await expect.poll(() => kept('counted').length, SOON).toBe(before + 3)
    for (let look = 0; look < 20; look++) {
      expect([await count('adults'), await count('children')]).toEqual([adults + 1, children + 2])
      await page.waitForTimeout(250)
    }
    expect(await page.getAttribute('[data-counted]', 'data-counted')).toBe(String(adults + 1))
    expect(new Set(kept('counted').map(({ key }) => key)).size).toBe(before + 3)
  }, 60_000)

  it('takes a coach at once', async () => {
    const children = await count('children')
    await page.click('summary:text-is("Many at once")')
    await page.locator('.line-many input[name=children]').fill('28')
    await page.locator('.line-many button').dblclick()
    await expect.poll(() => count('children'), SOON).toBe(children + 28)
    expect(service.desk.marks.field(service.night.id).childrenIn).toBe(children + 28)
  })
})

describe('a phone without scripts', () => {
  it('counts and times by plain forms and comes back to the same page', async () => {
    const plain = await browser.newContext({ javaScriptEnabled: false, viewport: PHONE })
    await service.join(plain, 'Ben')
    const phone = await plain.newPage()
    await phone.goto(address)
    const adults = Number(await phone.textContent('[data-count=adults]'))
    await phone.click('button:text-is("+1 adult")')
    expect(phone.url()).toBe(address)
    expect(await phone.textContent('[data-count=adults]')).toBe(String(adults + 1))

    expect(await phone.isVisible('[data-timing-start]')).toBe(false)
    await phone.selectOption('[data-watch] select[name=stationId]', { label: 'Big reflector' })
    await phone.fill('[data-watch] input[name=people]', '10')
    await phone.selectOption('[data-watch] select[name=seconds]', { label: '10:00' })
    await phone.click('[data-watch] button')
    expect(phone.url()).toBe(address)
    expect(await phone.textContent('article:has-text("Big reflector")')).toContain('Timed at 18:40: 60 seconds')
    expect(kept('timed').at(-1)).toMatchObject({ payload: { people: 10, seconds: 600 } })
    await plain.close()
  })
})
