import { join } from 'node:path'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { typeset } from '../../../server/web/typeset.ts'
import { complaintsOf, launch, PICTURES, readPdf } from '../../support/chromium.ts'
import { emptyServices, HOST_WAYS, Person, pageOn } from '../../support/journey.ts'

const PIN = '271828'
const services = emptyServices('--pin', PIN, '--clock', '2026-11-27T12:00:00Z')
let browser: Browser

beforeAll(async () => {
  browser = await launch()
})
afterAll(async () => {
  await browser?.close()
  await services.end()
})

describe('from an empty data folder to a printed programme', () => {
  it.each(HOST_WAYS)('$name', async (way) => {
    const { url } = await services.start()
    const page = await pageOn(browser, way)
    const context = page.context()
    const complaints = complaintsOf(page, url)
    const host = new Person(page, way)
    await host.open(url)
    await host.go('link', 'Sign in', '.next-step')
    await host.type('PIN', PIN)
    await host.go('button', 'Sign in', 'main')
    await host.go('link', 'Make an evening', '.next-step')
    await host.type('Town', 'Thun')
    await host.type('Date', '18 December 2026')
    await host.type('Telescopes', 'two 130 mm telescopes')
    await host.type('Date', '17 December 2026', 'Shift+Tab')
    await host.go('button', 'Make the evening')
    expect(await page.textContent('.lead')).toContain('Thursday 17 December 2026')

    await host.go('link', 'Tonight', '.masthead')
    expect(await page.textContent('h1')).toBe('Telescope evening in Thun')
    await host.go('link', 'Choose the papers', '.next-step')
    await host.go('link', 'Print tonight')
    expect(new URL(page.url()).pathname).toMatch(/^\/nights\/\w+\/print\/tonight$/)
    const file = join(PICTURES, `journey-start-${HOST_WAYS.indexOf(way)}.pdf`)
    await page.pdf({ path: file, preferCSSPageSize: true })
    const { text, pages } = readPdf(file)
    const { nights } = await (await context.request.get(`${url}/api/nights`)).json()
    const { stops } = await (await context.request.get(`${url}/api/nights/${nights[0].id}/tour`)).json()
    expect(stops.length).toBeGreaterThanOrEqual(4)
    expect(pages).toBeGreaterThanOrEqual(2)
    for (const { targetName, startsAtWall } of stops) {
      expect(text.replace(/\s+/g, ' ')).toContain(typeset(targetName).replace(/\s+/g, ' '))
      expect(text).toContain(startsAtWall)
    }
    await host.go('link', 'Back to the night')
    await host.open(`${url}/tonight/${nights[0].id}?look=day`)
    await host.go('link', 'Red lamp look')
    expect(await page.getAttribute('html', 'data-look')).toBe('lamp')
    expect(host.faults).toEqual([])
    expect(complaints).toEqual([])
    await context.close()
  })
})
