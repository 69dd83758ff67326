import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { loadAssets } from '../../server/web/assets.ts'
import { readWordTables } from '../../server/web/language.ts'
import { offeredPieces } from '../../server/web/pages/paper-choice.ts'
import { printTonightPage } from '../../server/web/pages/print-tonight.ts'
import { pageWriter, type WritePage } from '../../server/web/views.ts'
import { launch, PICTURES } from '../support/chromium.ts'
import { HOST as READER } from '../support/page-data.ts'
import { A_JOIN_CARD } from '../support/phone-pages.ts'
import { CUT_TEXTS, PRINTED_TEXTS, type PrintedText, sheetsOf } from '../support/printed.ts'
import { HARD_NIGHTS } from '../support/printed-nights.ts'
import { servedPage } from '../support/served-page.ts'
import { HOST, type TestApp, testApp } from '../support/web.ts'

let service: TestApp
let write: WritePage
let browser: Browser
let page: Page

beforeAll(async () => {
  const assets = await loadAssets()
  write = pageWriter(assets)
  service = await testApp({ words: readWordTables(), assets, writePage: write })
  browser = await launch()
  page = await servedPage(browser, service)
  await page.emulateMedia({ media: 'print' })
})
afterAll(async () => {
  await browser?.close()
  await service?.app.close()
})

const cases = Object.keys(HARD_NIGHTS).flatMap((name) =>
  (['a4', 'letter'] as const).flatMap((paper) =>
    (['normal', 'large'] as const).map((letters) => [name, paper, letters] as const),
  ),
)

describe.each(cases)('all papers of a night with %s on %s in %s letters', (name, paper, letters) => {
  it('are as many sheets as promised, and nothing of them is blank or cut off', async () => {
    const night = HARD_NIGHTS[name]
    if (!night) throw new Error(`No night is called ${name}`)
    const subject = { ...night, look: { paper, letters } }
    const all = offeredPieces(READER, subject, A_JOIN_CARD)
    const once = Object.fromEntries(all.map((piece) => [piece.name, 1]))
    const html = await write(service.app, 'papers', printTonightPage(READER, subject, all, once))
    await page.route('**/hard-night', (route) => route.fulfill({ contentType: 'text/html', body: html }))
    await page.goto(`http://${HOST}/hard-night`)
    await page.unroute('**/hard-night')
    await page.evaluate('document.fonts.ready')
    const file = join(PICTURES, `papers-${name.replaceAll(' ', '-')}-${paper}-${letters}.pdf`)
    await page.pdf({ path: file, preferCSSPageSize: true, printBackground: false })
    const sheets = sheetsOf(file)
    const promised = all.reduce((sum, { pages }) => sum + pages, 0)
    if (letters === 'normal') expect(sheets).toHaveLength(promised)
    else expect(sheets.length).toBeLessThanOrEqual(2 * promised)
    expect(sheets.filter(({ ink }) => ink < 500)).toEqual([])
    expect(await page.evaluate<string[]>(CUT_TEXTS)).toEqual([])
    const texts = await page.evaluate<PrintedText[]>(PRINTED_TEXTS)
    expect(texts.filter(({ pt }) => pt < 11.99)).toEqual([])
  })
})
