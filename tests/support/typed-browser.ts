import type { Browser, Page } from 'playwright-core'
import { ASSETS } from './assets.ts'
import { isGrowing } from './typed-checks.ts'
import { typedRounds, typeKept, type WordFor } from './typed-round.ts'
import type { FormTarget } from './typed-send.ts'

interface BrowserRound {
  readonly problems: readonly string[]
  readonly strings: number
  readonly documents: number
}
/** A document as it stands in the browser: each of its elements with the names of its attributes. */
type Built = readonly string[]

const MARK = 'duskrow-typed '
/** Before the name of a part of a drawing; which of them are drawn hangs on how wide the letters are. */
const DRAWN = 'drawn '
/** Hears what a page is not let do, and whether anything of what was typed was run: it all calls `zq`. */
const SPY = `
  addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
    console.debug('${MARK}refused ' + violatedDirective + ' ' + blockedURI))
  window.zq = () => console.debug('${MARK}what was typed was run')`
const BUILT = `[...document.querySelectorAll('*')].map((each) =>
  (each.ownerSVGElement ? '${DRAWN}' : '') + each.localName + '[' + each.getAttributeNames() + ']')`

/** Who joins by it is a phone from then on, and no host. */
const ENDS_SESSION = '/join'
/** What a page that lets harm in would hold. */
const HARM = '<zq></zq><img src=x onerror=zq()><img src=//zq.example/x><script>zq()</script>'

/** A service in Chromium into which people who mean harm type, with plain letters of the same length before each of their words. */
export async function typedBrowser(browser: Browser) {
  const rounds = await typedRounds('every page', await ASSETS)
  const { service, targets } = rounds
  const origin = await service.open()
  const context = await browser.newContext()
  await context.addInitScript(SPY)
  const [name = '', value = ''] = service.cookie.split('=')
  await context.addCookies([{ name, value, url: origin }])
  const page = await context.newPage()
  const heard = hearkenTo(page, origin)
  const pages = await htmlPages(service, rounds.pages)
  const known = new Set<string>()

  /** Types the words, first where they are kept; then every page and every form that refuses them is opened. */
  async function look(word: WordFor): Promise<ReadonlyMap<string, Built>> {
    service.dropPhones()
    const posts = targets.filter(({ form }) => form.method === 'post')
    for (const target of posts) if (target.kept.size > 0) await typeKept(service, target, word)
    const seen = new Map<string, Built>()
    for (const path of pages) {
      await page.goto(origin + path)
      seen.set(path, await page.evaluate<Built>(BUILT))
    }
    for (const target of posts.filter(({ form }) => form.action !== ENDS_SESSION)) {
      await page.goto(`${origin}/sites`)
      await sendByForm(page, target, word)
      seen.set(`${target.form.action} ${target.form.typed.length}`, await page.evaluate<Built>(BUILT))
    }
    return seen
  }

  async function round(random: () => number): Promise<BrowserRound> {
    const words = rounds.draw(random)
    const plain = await look(words.plain)
    for (const built of plain.values()) for (const each of built) for (const part of partsOf(each)) known.add(part)
    const heardBefore = heard.length
    const nasty = await look(words.nasty)
    const problems = [...nasty].flatMap(([place, built]) => [
      ...built.filter((each) => partsOf(each).some((part) => !known.has(part))).map((each) => `${place}: ${each}`),
      ...(pages.includes(place) && !isGrowing(place) ? differing(place, built, plain.get(place) ?? []) : []),
    ])
    return { problems: [...problems, ...heard.slice(heardBefore)], strings: words.strings, documents: nasty.size }
  }
  /** What is told of a page into which harm is put on purpose. */
  async function harmed(): Promise<readonly string[]> {
    await page.goto(`${origin}/sites`)
    const before = heard.length
    await page.evaluate(`document.body.insertAdjacentHTML('beforeend', ${JSON.stringify(HARM)}), alert('zq')`)
    await page.waitForTimeout(HARM_MS)
    const built = await page.evaluate<Built>(BUILT)
    const strange = built.filter((each) => partsOf(each).some((part) => !known.has(part)))
    return [...strange, ...heard.slice(before)]
  }
  return { round, harmed, close: rounds.close }
}
const HARM_MS = 1_000

/** Notes what a page complains of, what it is not let do, what it asks elsewhere and what it says in a dialogue. */
function hearkenTo(page: Page, origin: string): string[] {
  const heard: string[] = []
  const tell = (what: string) => heard.push(`${page.url()}: ${what}`)
  page.on('console', (message) => {
    const text = message.text()
    // A form that is refused is answered with 422, and that is said there as an error.
    const isError = message.type() === 'error' && !text.startsWith('Failed to load resource')
    if (isError || text.startsWith(MARK)) tell(text)
  })
  page.on('pageerror', (error) => tell(error.message))
  page.on('dialog', (dialog) => {
    tell(`a dialogue: ${dialog.message()}`)
    void dialog.dismiss()
  })
  page.on('request', (request) => {
    if (!request.url().startsWith(origin) && !request.url().startsWith('data:')) tell(`asks ${request.url()}`)
  })
  return heard
}

async function htmlPages(service: Awaited<ReturnType<typeof typedRounds>>['service'], pages: readonly string[]) {
  const html: string[] = []
  for (const path of pages) {
    const { status, type } = await service.get(path)
    if (status === 200 && type.startsWith('text/html')) html.push(path)
  }
  return html
}

/** Sends a form as the browser does, with the words in all its fields. */
async function sendByForm(page: Page, target: FormTarget, word: WordFor): Promise<void> {
  const { action, fields, typed } = target.form
  const filled = fields.map(([name, value]) => [name, typed.includes(name) ? `${word(target, name)}zq` : value])
  await Promise.all([
    page.waitForEvent('framenavigated'),
    page.evaluate(`{
      const form = document.createElement('form')
      Object.assign(form, { method: 'post', action: ${JSON.stringify(action)} })
      for (const [name, value] of ${JSON.stringify(filled)}) {
        const field = document.createElement('textarea')
        field.name = name
        field.value = value
        form.append(field)
      }
      document.body.append(form)
      HTMLFormElement.prototype.submit.call(form)
    }`),
  ])
  await page.waitForLoadState()
}

/** An element with each of its attributes alone. */
function partsOf(each: string): readonly string[] {
  const [element = '', attributes = ''] = each.slice(0, -1).split('[')
  return ['', ...attributes.split(',')].map((attribute) => `${element} ${attribute}`)
}

const outsideDrawings = (built: Built): Built => built.filter((each) => !each.startsWith(DRAWN))

function differing(place: string, nasty: Built, plainly: Built): readonly string[] {
  const [built, plain] = [outsideDrawings(nasty), outsideDrawings(plainly)]
  const length = Math.max(built.length, plain.length)
  const at = Array.from({ length }, (_, index) => index).find((index) => built[index] !== plain[index])
  if (at === undefined) return []
  return [`${place}: ${built.slice(at, at + 3).join(' ')}, not ${plain.slice(at, at + 3).join(' ')}`]
}
