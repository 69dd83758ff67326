import { linkSync, mkdtempSync, readdirSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, CDPSession, Locator, Page } from 'playwright-core'
import { type Demo, startService } from './demo.ts'
import { removeFolder } from './desk-folder.ts'
import { faultsOf } from './field-checks.ts'
import { SCROLL_WIDTH } from './in-page.ts'
import { type Stop, stopWithin } from './stops-in-page.ts'

/** How one person goes through a journey: on what screen, in which look where a page has two, and with what. */
export interface Way {
  readonly name: string
  readonly viewport: { readonly width: number; readonly height: number }
  readonly look: 'day' | 'lamp'
  readonly byKeys: boolean
  /** True where a finger does what a mouse does elsewhere. */
  readonly byTouch: boolean
}
const SCREENS = { laptop: { width: 1280, height: 900 }, phone: { width: 390, height: 844 } }
const LOOKS = ['day', 'lamp'] as const

/** On either screen, with a finger or a mouse and by keyboard alone: a phone too may have a keyboard, or a switch that does as one. */
const waysIn = (look: Way['look'], said = ''): Way[] =>
  Object.entries(SCREENS).flatMap(([screen, viewport]) => [
    { name: `on a ${screen}${said}`, viewport, look, byKeys: false, byTouch: screen === 'phone' },
    { name: `on a ${screen}${said}, by keys`, viewport, look, byKeys: true, byTouch: false },
  ])

/** For pages of the host, which have the day look alone or are opened in both on the way. */
export const HOST_WAYS: readonly Way[] = waysIn('day')
/** For pages that the field keeps open in one look. */
export const FIELD_WAYS: readonly Way[] = LOOKS.flatMap((look) => waysIn(look, ` in the ${look} look`))

/** A fresh page on the screen of a way, which knows fingers where they are used. */
export const pageOn = async (browser: Browser, { viewport, byTouch }: Way): Promise<Page> =>
  (await browser.newContext({ viewport, hasTouch: byTouch })).newPage()

/** The tab key is pressed so often before a thing counts as out of its reach. */
const MOST_TABS = 80
const MOST_ARROWS = 10
const SLOW_MS = 90_000

/** Presses the tab key until the focus is where it is wanted, as someone does who has no mouse. */
export async function tabUntil(
  page: Page,
  isThere: () => Promise<boolean>,
  what: string,
  key: 'Tab' | 'Shift+Tab' = 'Tab',
): Promise<void> {
  for (let tabs = 0; tabs < MOST_TABS; tabs++) {
    await page.keyboard.press(key)
    if (await isThere()) return
  }
  throw new Error(`The tab key never comes to ${what}`)
}

/** What a person uses on a page, by the role that is said of it to those who do not see it. */
type Kind = 'link' | 'button' | 'textbox' | 'spinbutton' | 'radio' | 'DisclosureTriangle'
interface Focus {
  readonly role: string
  readonly name: string
}
const isCalled = (name: string, wanted: string | RegExp): boolean =>
  typeof wanted === 'string' ? name === wanted : wanted.test(name)

/** One person at one page, who finds things by what they are called; faults of every page that was looked at are gathered. */
export class Person {
  readonly page: Page
  readonly way: Way
  private readonly found = new Set<string>()
  private pressedAtMs = Number.NEGATIVE_INFINITY
  private cdp: CDPSession | undefined

  constructor(page: Page, way: Way) {
    this.page = page
    this.way = way
  }

  get faults(): readonly string[] {
    return [...this.found]
  }

  async open(address: string): Promise<void> {
    await this.page.goto(address)
    await this.look()
  }

  /** Sideways scrolling of the page as it stands, and what axe finds; that is the same whatever people press with, so it is asked once a screen and look. */
  async look(): Promise<void> {
    const width = await this.page.evaluate<number>(SCROLL_WIDTH)
    if (width > this.way.viewport.width) this.note([`${width} pixels wide`])
    if (!this.way.byKeys) this.note(await faultsOf(this.page))
  }

  /** Follows a link, or sends a form, to the next page, and looks at that. */
  async go(kind: 'link' | 'button', name: string | RegExp, within = 'body'): Promise<void> {
    const next = this.page.waitForEvent('load', { timeout: SLOW_MS })
    await Promise.all([next, this.press(kind, name, within)])
    await this.look()
  }

  /** Presses what is there, or comes soon, and opens first what it is folded into. */
  async press(kind: 'link' | 'button', name: string | RegExp, within = 'body'): Promise<void> {
    const wanted = this.page.locator(within).getByRole(kind, { name, exact: true, includeHidden: true }).first()
    await this.unfoldTo(wanted)
    if (this.way.byKeys) {
      await this.reach(kind, name, within)
      await this.page.keyboard.press('Enter')
    } else await this.touch(wanted)
    this.pressedAtMs = performance.now()
  }

  /** Waits until so much time has passed since the last press. */
  async rest(ms: number): Promise<void> {
    await this.page.waitForTimeout(Math.max(0, this.pressedAtMs + ms - performance.now()))
  }

  async unfold(name: string): Promise<void> {
    if (!this.way.byKeys) return this.touch(this.page.locator(`summary:text-is("${name}")`))
    await this.reach('DisclosureTriangle', name, 'body')
    await this.page.keyboard.press('Space')
  }

  async type(label: string, text: string, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
    if (!this.way.byKeys) return this.page.getByLabel(label, { exact: true }).fill(text)
    await this.reach(await this.kindOfField(label), label, 'main', key)
    await this.page.keyboard.press('Control+A')
    await this.page.keyboard.type(text)
  }

  /** Chooses one of a group: the tab key comes to the group, the arrows to each of it. */
  async choose(label: string): Promise<void> {
    if (!this.way.byKeys) return this.touch(this.page.locator(`label:text-is("${label}")`))
    await this.reach('radio', /./, 'main')
    for (let arrows = 0; arrows < MOST_ARROWS; arrows++) {
      if (isCalled((await this.focus()).name, label)) return
      await this.page.keyboard.press('ArrowDown')
    }
    throw new Error(`The arrows never come to ${label}`)
  }

  private touch = (wanted: Locator): Promise<void> => (this.way.byTouch ? wanted.tap() : wanted.click())

  private note(faults: readonly string[]): void {
    const { pathname, search } = new URL(this.page.url())
    for (const fault of faults) this.found.add(`${this.way.name}, ${pathname}${search}: ${fault}`)
  }

  private async unfoldTo(wanted: Locator): Promise<void> {
    await wanted.waitFor({ state: 'attached' })
    if (await wanted.isVisible()) return
    const folds = wanted.locator('xpath=ancestor::details[not(@open)]/summary')
    for (const name of await folds.allTextContents()) await this.unfold(name.trim())
  }

  private async kindOfField(label: string): Promise<'textbox' | 'spinbutton'> {
    const isNumber = await this.page.getByRole('spinbutton', { name: label, exact: true }).count()
    return isNumber > 0 ? 'spinbutton' : 'textbox'
  }

  /** Goes with the tab key to what is wanted; at each stop on the way it must be seen where that is, and large enough. */
  private async reach(
    kind: Kind,
    name: string | RegExp,
    within: string,
    key: 'Tab' | 'Shift+Tab' = 'Tab',
  ): Promise<void> {
    const isThere = async (): Promise<boolean> => {
      const { isInside, faults } = await this.page.evaluate<Stop>(stopWithin(within))
      this.note(faults)
      if (!isInside) return false
      const focus = await this.focus()
      return focus.role === kind && isCalled(focus.name, name)
    }
    if (await isThere()) return
    await tabUntil(this.page, isThere, `the ${kind} “${name}” on ${this.page.url()}`, key)
  }

  /** The role and name of what has the focus, as the browser tells them to a screen reader. */
  private async focus(): Promise<Focus> {
    this.cdp ??= await this.page.context().newCDPSession(this.page)
    const { result } = await this.cdp.send('Runtime.evaluate', { expression: 'document.activeElement' })
    if (!result.objectId) return { role: '', name: '' }
    const asked = { objectId: result.objectId, fetchRelatives: false }
    const { nodes } = await this.cdp.send('Accessibility.getPartialAXTree', asked)
    return { role: String(nodes[0]?.role?.value ?? ''), name: String(nodes[0]?.name?.value ?? '') }
  }
}

/** Services that nobody has used: the first one builds its catalogue as at home, the others are given it. */
export function emptyServices(...flags: string[]) {
  const folders: string[] = []
  const running: Demo[] = []
  return {
    async start(): Promise<Demo> {
      const folder = mkdtempSync(join(tmpdir(), 'duskrow-start-'))
      const [first] = folders
      for (const name of first ? readdirSync(first).filter((file) => /^catalogue-\w+\.db$/.test(file)) : []) {
        linkSync(join(first ?? '', name), join(folder, name))
      }
      folders.push(folder)
      const service = await startService('server/main.ts', '--data', folder, ...flags)
      running.push(service)
      return service
    },
    async end(): Promise<void> {
      for (const service of running) await service.stop()
      for (const folder of folders) removeFolder(folder)
    },
  }
}
