import { execFileSync } from 'node:child_process'
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core'
import { brightestOf } from './in-page.ts'
import { WATCHED, watched } from './watched-browser.ts'

/** Where pictures of the pages are kept for people to look at; git ignores it. */
export const PICTURES = join(import.meta.dirname, '../browser/pictures')

/** The Chromium of the system. */
export const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium'

/** What phones call the laptop in tests: a name that is not the laptop's own, so that its pages are no secure context, as in the field. */
export const FIELD_NAME = 'field.test'

const ARGS = [
  `--host-resolver-rules=MAP ${FIELD_NAME} 127.0.0.1`,
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/** The Chromium of the system, without a window; in a run that is watched, its pages tell what they do. */
export async function launch(): Promise<Browser> {
  mkdirSync(PICTURES, { recursive: true })
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: ARGS })
  const file = process.env[WATCHED]
  return file === undefined ? browser : watched(browser, file)
}

/** Signs the context in as host by the form, as a person does. */
export async function signIn(context: BrowserContext, url: string, pin: string): Promise<void> {
  const page = await context.newPage()
  await page.goto(`${url}/sign-in`)
  await page.fill('input[name=pin]', pin)
  // Without waiting for the answer the page could be closed before its cookie is kept.
  await Promise.all([page.waitForURL(({ pathname }) => pathname !== '/sign-in'), page.click('main button')])
  await page.close()
}

/** Listens to a page and answers what it complained of: errors on its console, and requests to anywhere else than `url`. */
export function complaintsOf(page: Page, url: string): string[] {
  const complaints: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(`${page.url()}: ${message.text()}`)
  })
  page.on('pageerror', (error) => complaints.push(`${page.url()}: ${error.message}`))
  page.on('request', (request) => {
    if (!request.url().startsWith(url) && !request.url().startsWith('data:')) complaints.push(request.url())
  })
  return complaints
}

/** The largest red, and the largest green or blue, among the pixels of a screenshot of the page; a blank page reads it. */
export async function brightness(page: Page): Promise<{ readonly red: number; readonly greenOrBlue: number }> {
  const picture = (await page.screenshot({ fullPage: true })).toString('base64')
  const reader = await page.context().newPage()
  try {
    return await reader.evaluate(brightestOf(picture))
  } finally {
    await reader.close()
  }
}

/** The words of a PDF and the size of its first page in millimetres; poppler reads it, not the browser that wrote it. */
export function readPdf(file: string): {
  readonly text: string
  readonly pages: number
  readonly widthMm: number
  readonly heightMm: number
} {
  const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' })
  const info = execFileSync('pdfinfo', [file], { encoding: 'utf8' })
  const [, width = '0', height = '0'] = /Page size:\s+([\d.]+) x ([\d.]+) pts/.exec(info) ?? []
  const mm = (points: string): number => (Number(points) * 25.4) / 72
  const pages = Number(/Pages:\s+(\d+)/.exec(info)?.[1] ?? 0)
  return { text, pages, widthMm: mm(width), heightMm: mm(height) }
}
