import { mkdirSync } from 'node:fs'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { launch, signIn } from '../support/chromium.ts'
import { startDemo } from '../support/demo.ts'
import { type DemoPlaces, demoPlaces } from '../support/page-addresses.ts'

/** How large the window is: a laptop, and a phone in the hand. */
export const WINDOWS = { '1-desktop': { width: 1280, height: 900 }, '2-phone': { width: 390, height: 844 } } as const

/** The running demo and two browsers before it: the host's, and that of somebody who has not signed in. */
export interface Studio {
  readonly url: string
  readonly places: DemoPlaces
  readonly host: Page
  readonly visitor: Page
  readonly folder: string
  close(): Promise<void>
}

/** Starts the demo so that phones are let in, since its pages then say how, and opens both browsers in a language. */
export async function openStudio(lang: string, folder: string): Promise<Studio> {
  const demo = await startDemo('--lan')
  const browser = await launch()
  const close = async (): Promise<void> => {
    await browser.close()
    await demo.stop()
  }
  try {
    const contexts = {
      host: await contextIn(browser, lang, demo.url),
      visitor: await contextIn(browser, lang, demo.url),
    }
    await signIn(contexts.host, demo.url, demo.pin)
    const places = await demoPlaces(contexts.host.request, demo.url)
    mkdirSync(folder, { recursive: true })
    const [host, visitor] = [await contexts.host.newPage(), await contexts.visitor.newPage()]
    return { url: demo.url, places, host, visitor, folder, close }
  } catch (error) {
    await close()
    throw error
  }
}

async function contextIn(browser: Browser, lang: string, url: string): Promise<BrowserContext> {
  const context = await browser.newContext()
  await context.addCookies([{ name: 'lang', value: lang, url }])
  return context
}

const FOUND = 200

/** Opens an address and waits until its letters and pictures are there and nothing on it is still being worked out; refuses an answer of another kind than was meant. */
export async function openPage(page: Page, address: string, status = FOUND): Promise<void> {
  const answer = await page.goto(address, { waitUntil: 'load' })
  if (answer?.status() !== status) throw new Error(`${address} answered ${answer?.status()} and not ${status}`)
  await page.evaluate('document.fonts.ready')
  await page.waitForSelector('[data-unfinished]', { state: 'detached' })
}
