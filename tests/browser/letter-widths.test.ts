import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { lineEm, linesOf } from '../../server/drawings/letter-widths.ts'
import { FONTS } from '../../server/web/fonts.ts'
import { launch } from '../support/chromium.ts'

const ROOT = join(import.meta.dirname, '../..')
const FACES = FONTS.map(({ family, weight, unicodeRange, file }) => {
  const data = readFileSync(join(ROOT, 'node_modules', file)).toString('base64')
  return `@font-face{font-family:${family};font-weight:${weight};unicode-range:${unicodeRange};src:url(data:font/woff2;base64,${data})}`
})
const BOTH = ['regular', 'bold'] as const
const WEIGHTS = { regular: 400, bold: 700 }
/** Chromium's widths come in steps of less than this. */
const STEP_EM = 0.0001

let browser: Browser
let page: Page
beforeAll(async () => {
  browser = await launch()
  page = await browser.newPage()
  await page.setContent(`<style>${FACES.join('')}</style>`)
  await page.evaluate(`Promise.all([400, 700].map((weight) => document.fonts.load(weight + ' 100px Andika', 'aŁ')))`)
})
afterAll(() => browser.close())

/** How wide texts are in a font, in type sizes; what the font lacks is taken from another. */
const measured = (texts: readonly string[], weight: number, other = 'monospace'): Promise<number[]> =>
  page.evaluate(`(() => {
    const context = document.createElement('canvas').getContext('2d')
    context.font = '${weight} 1000px Andika, ${other}'
    return ${JSON.stringify(texts)}.map((text) => context.measureText(text).width / 1000)
  })()`)

const range = (from: number, to: number): string[] =>
  Array.from({ length: to - from + 1 }, (_, k) => String.fromCodePoint(from + k))
const ASCII = range(0x20, 0x7e)
/** The letters of the languages of Europe, Vietnamese Ơ and ư, and the signs that drawings and sentences have. */
const LETTERS = [...ASCII, ...range(0xa0, 0x17f), ...'ƠơƯưȘșȚț–—‘’‚“”„…‹›€′″−½']

const TABLE: Record<string, string | Record<string, string>> = JSON.parse(
  readFileSync(join(ROOT, 'views/words/en.json'), 'utf8'),
)
const SENTENCES = Object.values(TABLE).flatMap((said) => (typeof said === 'string' ? [said] : Object.values(said)))

/** In how many lines texts stand in a column of a page, in letters of 16 px. */
const linesSet = (texts: readonly string[], columnEm: number, weight: number): Promise<number[]> =>
  page.evaluate(`(() => {
    const column = document.createElement('p')
    document.body.append(column)
    column.style = 'font:${weight} 16px/20px Andika;width:${16 * columnEm}px;overflow-wrap:break-word;margin:0'
    const lines = ${JSON.stringify(texts)}.map((text) => {
      column.textContent = text
      return column.getBoundingClientRect().height / 20
    })
    column.remove()
    return lines
  })()`)

/** Each text that is wider than is reckoned, with both widths. */
async function wider(texts: readonly string[], form: (typeof BOTH)[number]): Promise<string[]> {
  const widths = await measured(texts, WEIGHTS[form])
  return texts.flatMap((text, i) => {
    const [found, reckoned] = [widths[i] ?? Number.POSITIVE_INFINITY, lineEm(text, form === 'bold')]
    return found > reckoned + STEP_EM ? [`${text}: ${found} beyond ${reckoned}`] : []
  })
}

describe('the widths of letters', () => {
  it.each(BOTH)('are those of the bundled font, %s', async (form) => {
    const [one, other] = [await measured(ASCII, WEIGHTS[form]), await measured(ASCII, WEIGHTS[form], 'serif')]
    expect(one).toEqual(other)
    expect(new Set(one).size).toBeGreaterThan(40)
  })

  it.each(BOTH)('are nowhere less than Chromium sets, %s', async (form) => {
    expect(LETTERS.length).toBeGreaterThan(300)
    expect(await wider(LETTERS, form)).toEqual([])
  })

  it.each(BOTH)('are little more than Chromium sets, and the same for all digits, %s', async (form) => {
    const widths = await measured(ASCII, WEIGHTS[form])
    for (const [i, letter] of ASCII.entries())
      expect(lineEm(letter, form === 'bold') - (widths[i] ?? 0), letter).toBeLessThan(0.022)
    expect(new Set([...'0123456789'].map((digit) => lineEm(digit, form === 'bold'))).size).toBe(1)
  })

  it.each(BOTH)('of every sentence of the service add up to no less than its width, %s', async (form) => {
    expect(SENTENCES.length).toBeGreaterThan(1000)
    expect(await wider(SENTENCES, form)).toEqual([])
  })

  it.each(BOTH)('leave no sentence more lines in Chromium than are reckoned, %s', async (form) => {
    for (const columnEm of [12, 15, 21, 30]) {
      const lines = await linesSet(SENTENCES, columnEm, WEIGHTS[form])
      const reckoned = SENTENCES.map((text) => linesOf(text, columnEm, form === 'bold').length)
      expect(SENTENCES.filter((_, i) => (lines[i] ?? 0) > (reckoned[i] ?? 0))).toEqual([])
      expect(lines.filter((count, i) => count === reckoned[i]).length / lines.length).toBeGreaterThan(0.8)
    }
  })

  it('take letters of other scripts for square', () => {
    expect(lineEm('星空')).toBe(2)
    expect(lineEm('é')).toBe(lineEm('e'))
    expect(lineEm('e\u0301')).toBe(lineEm('e'))
  })
})
