import { appendFileSync, readFileSync } from 'node:fs'
import type { Browser, BrowserContext } from 'playwright-core'
import { SECURE_ONLY } from './secure-only.ts'

/** Names the file in which the browsers of a run tell of their pages. */
export const WATCHED = 'DUSKROW_WATCHED_PAGES'

/** A document that was opened, a use of what only secure contexts have, or a request to somewhere else. */
export type Watched =
  | { readonly kind: 'document'; readonly url: string; readonly isSecure: boolean }
  | { readonly kind: 'unscripted'; readonly url: string }
  | { readonly kind: 'use'; readonly url: string; readonly name: string }
  | { readonly kind: 'elsewhere'; readonly url: string }

const MARK = 'duskrow-watched '

/** Runs before all scripts of a page: what the field has not is taken away on the laptop, too, and every look at it is told. */
const SPY = `(() => {
  const tell = (seen) => console.debug('${MARK}' + JSON.stringify({ url: location.href, ...seen }))
  tell({ kind: 'document', isSecure: isSecureContext })
  const owners = { navigator: Navigator.prototype, crypto: Crypto.prototype, window }
  for (const [owner, names] of Object.entries(${JSON.stringify(SECURE_ONLY)})) {
    for (const name of names) {
      Object.defineProperty(owners[owner], name, {
        configurable: true,
        get() {
          // What a test itself looks at is run by Playwright's own script.
          if (!new Error().stack.includes('UtilityScript')) tell({ kind: 'use', name: owner + '.' + name })
        },
      })
    }
  }
})()`

/** The same browser, all of whose pages tell what they are and what they ask for. */
export function watched(browser: Browser, file: string): Browser {
  const open = browser.newContext.bind(browser)
  browser.newContext = async (options) => {
    const context = await open(options)
    await watch(context, file, options?.javaScriptEnabled !== false)
    return context
  }
  return browser
}

async function watch(context: BrowserContext, file: string, hasScripts: boolean): Promise<void> {
  const tell = (seen: Watched) => appendFileSync(file, `${JSON.stringify(seen)}\n`)
  if (hasScripts) await context.addInitScript(SPY)
  context.on('console', (message) => {
    if (message.text().startsWith(MARK)) tell(JSON.parse(message.text().slice(MARK.length)))
  })
  context.on('request', (request) => {
    const url = request.url()
    if (!hasScripts && request.isNavigationRequest()) tell({ kind: 'unscripted', url })
    if (isElsewhere(url)) tell({ kind: 'elsewhere', url })
  })
}

export const isLaptop = (url: string): boolean => /^(localhost|127\.0\.0\.1|\[::1\])$/.test(new URL(url).hostname)
/** Under a name or an address of the field, as phones have it. */
export const isField = (url: string): boolean => /\.test$|^192\.168\./.test(new URL(url).hostname)
const isElsewhere = (url: string): boolean => /^(https?|wss?):/.test(url) && !isLaptop(url) && !isField(url)

export const readWatched = (file: string): readonly Watched[] =>
  readFileSync(file, 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line))
