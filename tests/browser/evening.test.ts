import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { typeset } from '../../server/web/typeset.ts'
import { complaintsOf, FIELD_NAME, launch, PICTURES, signIn } from '../support/chromium.ts'
import { type Demo, startDemo } from '../support/demo.ts'

const LAPTOP = { width: 1280, height: 900 }
const PHONE = { width: 390, height: 844 }
const WEST = ['w', 'nw', 'sw']
/** Longer than the time in which a second tap counts as the same. */
const SECOND_TAP_MS = 700
/** Two cores that are shared by much else. */
const SOON = { timeout: 20_000 }

interface Kept {
  readonly key: string
  readonly kind: string
  readonly by: string
  readonly stationId: string | null
  readonly payload: { readonly adults?: number; readonly children?: number; readonly what?: string }
}

/** A phone of the field with the one page that it keeps open, the keys of all acts that it sent, and complaints. */
interface Phone {
  readonly name: string
  readonly context: BrowserContext
  readonly page: Page
  readonly sent: ReadonlySet<string>
  readonly complaints: readonly string[]
}

let demo: Demo
let browser: Browser
let host: Page
let field = ''
let night = ''
let stations: readonly { readonly id: string; readonly name: string }[] = []
let ada: Phone
let ben: Phone
let cleo: Phone

beforeAll(async () => {
  demo = await startDemo('--lan', '--name', FIELD_NAME)
  field = demo.url.replace('127.0.0.1', FIELD_NAME)
  browser = await launch()
  const laptop = await browser.newContext({ viewport: LAPTOP })
  await signIn(laptop, demo.url, demo.pin)
  host = await laptop.newPage()
  const { nights } = await api('')
  const found = nights.find(({ date }: { date: string }) => date === '2026-12-17')
  night = found.id
  stations = found.stations
})
afterAll(async () => {
  await browser?.close()
  await demo?.stop()
})

const api = async (path: string) => (await host.context().request.get(`${demo.url}/api/nights${path}`)).json()
const marks = async (): Promise<readonly Kept[]> => (await api(`/${night}/marks`)).marks
const marksBy = async (name: string) => (await marks()).filter(({ by }) => by === name)
const status = ({ page }: Phone): Promise<string | null> => page.textContent('[data-status]')
const settled = (phone: Phone) => expect.poll(() => status(phone), SOON).toBe('Kept.')
const stationOf = (place: number) => stations[place] ?? { id: '', name: '' }

/** The rest of the plan as both operators read it. */
const evenings = () => Promise.all([ada, ben].map(({ page }) => page.textContent('#evening')))

/** What a person does on a phone that has never been here: opens the short address and types the code and a name. */
async function joinByCode(name: string, role: 'operator' | 'helper', code: string): Promise<Phone> {
  const context = await browser.newContext({ viewport: PHONE })
  const page = await context.newPage()
  const sent = new Set<string>()
  page.on('request', (request) => {
    if (request.method() !== 'POST' || !request.url().endsWith('/marks')) return
    for (const { key } of request.postDataJSON().marks) sent.add(key)
  })
  const complaints = complaintsOf(page, field)
  await page.goto(`${field}/join`)
  expect(await page.evaluate('isSecureContext')).toBe(false)
  await page.fill('[name=code]', code)
  await page.fill('[name=name]', name)
  await page.click(`label[for=role-${role}]`)
  const place = role === 'helper' ? `${night}/line` : night
  await Promise.all([page.waitForURL(`${field}/field/${place}?look=lamp`), page.click('form button')])
  return { name, context, page, sent, complaints }
}

/** Goes to a station as an operator, and marks the page, so that it is seen to be the same all evening. */
async function standAt({ page }: Phone, place: number): Promise<void> {
  await page.click(`#station-${stationOf(place).id} .stand a`)
  await page.waitForSelector('.station-page')
  await page.evaluate('window.isTheSamePage = true')
}

async function tap(phone: Phone, ...selectors: string[]): Promise<void> {
  for (const selector of selectors) await phone.page.click(selector)
  await phone.page.waitForTimeout(SECOND_TAP_MS)
}

describe('a whole evening', () => {
  it('begins with two operators and a line helper, who join by the code that the host reads out', async () => {
    await host.goto(`${demo.url}/nights/${night}/phones`)
    const code = (await host.locator('.scan-said .numeral').first().textContent()) ?? ''
    expect(code).toMatch(/^\w{4} \w{4}$/)
    ada = await joinByCode('Ada', 'operator', code)
    ben = await joinByCode('Ben', 'operator', code.toLowerCase().replace(' ', ''))
    cleo = await joinByCode('Cleo', 'helper', code)
    await standAt(ada, 0)
    await standAt(ben, 1)
    await cleo.page.evaluate('window.isTheSamePage = true')
    await host.reload()
    const said = await host.textContent('main')
    for (const { name } of [ada, ben, cleo]) expect(said).toContain(name)
  })

  it('goes on with acts at both telescopes and at the gate', async () => {
    await tap(ada, '.main-act button')
    await settled(ada)
    await tap(ada, '#seen summary', '#seen button >> nth=0')
    await settled(ada)
    await tap(ben, '.main-act button')
    await settled(ben)
    await tap(cleo, 'button:text-is("+1 adult")')
    await tap(cleo, 'button:text-is("+1 child")')
    await settled(cleo)
    expect((await marks()).map(({ by, kind }) => `${by} ${kind}`)).toEqual([
      'Ada showing',
      'Ada seen',
      'Ben showing',
      'Cleo counted',
      'Cleo counted',
    ])
  })

  it('loses one phone from the Wi-Fi, whose acts stay in it', async () => {
    await ben.context.setOffline(true)
    await tap(ben, '#trouble summary', '#trouble button:text-is("Cloud")')
    await tap(ben, '#skip summary', '#skip button >> nth=0')
    await expect.poll(() => status(ben), SOON).toContain('2 marks waiting')
    await tap(ada, '#trouble summary', '#trouble button:text-is("Help, please")')
    await settled(ada)
    expect(await marksBy('Ben')).toHaveLength(1)
    await ben.page.screenshot({ path: join(PICTURES, 'evening-out-of-reach.png'), fullPage: true })
  })

  it('has clouds come over the west, and the host make the programme again', async () => {
    await host.goto(`${demo.url}/nights/${night}/again`)
    for (const part of WEST) await host.check(`input[name="shut.${part}"]`)
    await host.selectOption('select[name=minutes]', 'open')
    await Promise.all([
      host.waitForURL(({ hash }) => hash === '#new'),
      host.click('button:text-is("Make the programme again")'),
    ])
    expect(await api(`/${night}/again`)).toMatchObject({ version: 1, waitingVersion: 2 })
    await expect.poll(() => ada.page.textContent('.banner'), SOON).toContain('Clouds')
    expect(await ada.page.isVisible('[data-new-plan]')).toBe(false)
  })

  it('gets the lost phone back, with all that was tapped on it', async () => {
    await ben.context.setOffline(false)
    await settled(ben)
    expect((await marksBy('Ben')).map(({ kind }) => kind)).toEqual(['showing', 'trouble', 'skipped'])
  })

  it('goes by the new programme, and every phone shows it within seconds', async () => {
    const before = await evenings()
    await Promise.all([
      host.waitForURL(({ pathname }) => pathname.endsWith('/programme')),
      host.click('button:text-is("Go by the new one")'),
    ])
    for (const { page } of [ada, ben, cleo]) {
      await expect.poll(() => page.isVisible('[data-new-plan]'), SOON).toBe(true)
      expect(await page.getAttribute('[data-field]', 'data-tour-version')).toBe('2')
    }
    const { stops } = await api(`/${night}/tour`)
    const nowMs = Date.parse((await api(`/${night}/changes`)).field.at)
    for (const [{ page }, place] of [
      [ada, 0],
      [ben, 1],
    ] as const) {
      const evening = await page.textContent('#evening')
      const ahead = stops.filter(
        (stop: { stationId: string; startsAt: string }) =>
          stop.stationId === stationOf(place).id && Date.parse(stop.startsAt) > nowMs,
      )
      expect(ahead.length).toBeGreaterThan(0)
      for (const { targetName } of ahead) expect(evening).toContain(typeset(targetName))
      await page.click('[data-new-plan] a')
      expect(await page.isVisible('[data-new-plan]')).toBe(false)
      await page.screenshot({ path: join(PICTURES, `evening-new-plan-${place}.png`), fullPage: true })
    }
    expect(await evenings()).not.toEqual(before)
  })

  it('has every act exactly once, and each phone has kept its one page', async () => {
    await tap(ben, '.main-act button')
    await settled(ben)
    const kept = await marks()
    const keys = kept.map(({ key }) => key)
    expect(new Set(keys).size).toBe(keys.length)
    for (const { name, sent, page } of [ada, ben, cleo]) {
      expect(new Set((await marksBy(name)).map(({ key }) => key)), name).toEqual(sent)
      expect(await page.evaluate('window.isTheSamePage'), name).toBe(true)
    }
    const counts = new Map<string, number>()
    for (const { by, kind } of kept) counts.set(`${by} ${kind}`, (counts.get(`${by} ${kind}`) ?? 0) + 1)
    expect(Object.fromEntries(counts)).toEqual({
      'Ada showing': 1,
      'Ada seen': 1,
      'Ada trouble': 1,
      'Ben showing': 2,
      'Ben trouble': 1,
      'Ben skipped': 1,
      'Cleo counted': 2,
      'host clouds': 1,
      'host accepted': 1,
    })
    const { adultsIn, childrenIn } = (await api(`/${night}/changes`)).field
    expect([adultsIn, childrenIn]).toEqual([1, 1])
    expect([...ada.complaints, ...cleo.complaints]).toEqual([])
  })
})
