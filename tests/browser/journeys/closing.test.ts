import { join } from 'node:path'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { complaintsOf, FIELD_NAME, launch, PICTURES, readPdf } from '../../support/chromium.ts'
import { SLOW_MS } from '../../support/desk-folder.ts'
import { HOST_WAYS, Person, pageOn } from '../../support/journey.ts'
import { FieldService } from '../offline-service.ts'

const PIN = '271828'
const TEN_TO_NINE = '2026-12-17T19:50:00Z'
const DONE = '[aria-pressed=true]'
const AFTER_THE_END = '2026-12-17T20:05:00Z'
const service = new FieldService()
let browser: Browser
let laptop = ''

beforeAll(async () => {
  await service.start()
  laptop = service.url.replace(FIELD_NAME, '127.0.0.1')
  await service.record({ key: 'counted-1', kind: 'counted', stationId: null, payload: { adults: 31, children: 12 } })
  browser = await launch()
}, SLOW_MS)
afterAll(async () => {
  await browser?.close()
  await service.end()
})

describe('from the last quarter of an hour to the settled report', () => {
  it.each(HOST_WAYS)('$name', async (way) => {
    const adults = 41 + HOST_WAYS.indexOf(way)
    service.clock.moveTo(TEN_TO_NINE)
    const page = await pageOn(browser, way)
    const context = page.context()
    const complaints = complaintsOf(page, laptop)
    const host = new Person(page, way)
    await host.open(`${laptop}/sign-in`)
    await host.type('PIN', PIN)
    await host.go('button', 'Sign in', 'main')
    await host.go('link', 'See what closing takes', '.next-step')
    await host.go('link', 'Checklists', 'main')
    const done = await page.locator(DONE).count()
    await host.go('button', /./, 'main')
    expect(await page.locator(DONE).count()).toBe(done + 1)
    await host.go('link', 'Red lamp look')
    expect(await page.getAttribute('html', 'data-look')).toBe('lamp')
    await host.go('button', /./, 'main')
    expect(await page.getAttribute('html', 'data-look')).toBe('lamp')
    expect(await page.locator(DONE).count()).toBe(done)

    service.clock.moveTo(AFTER_THE_END)
    await host.open(laptop)
    expect(await page.textContent('.next-step')).toContain('The night is over.')
    await host.go('link', 'Read the report', '.next-step')
    await host.press('link', 'Write down what is missing')
    expect(new URL(page.url()).hash).toBe('#form')
    await host.type('The sky', `Clear until the end, said ${way.name}.`)
    await host.type('What to improve', 'More lamps at the gate.')
    await host.type('Adults who came', String(adults), 'Shift+Tab')
    await host.go('button', 'Keep this')
    expect(await page.textContent('main')).not.toContain('nobody has written it down')
    await host.go('link', 'Print it', 'main')
    const file = join(PICTURES, `journey-report-${HOST_WAYS.indexOf(way)}.pdf`)
    await page.pdf({ path: file, preferCSSPageSize: true })
    const printed = readPdf(file).text.replace(/\s+/g, ' ')
    for (const said of ['More lamps at the gate.', way.name, String(adults)]) expect(printed).toContain(said)

    await host.open(`${laptop}/nights/${service.night.id}/report`)
    await host.go('button', 'Close the night')
    expect(await page.getByLabel('Adults who came').count()).toBe(0)
    await host.go('button', 'Open the night again')
    expect(await page.getByLabel('Adults who came').inputValue()).toBe(String(adults))
    expect(host.faults).toEqual([])
    expect(complaints).toEqual([])
    await context.close()
  })
})
