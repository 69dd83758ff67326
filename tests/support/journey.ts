import { linkSync, mkdtempSync, readdirSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { CDPSession, Page } from 'playwright-core'
import { type Demo, startService } from './demo.ts'
import { removeFolder } from './desk-folder.ts'
import { faultsOf } from './field-checks.ts'
import { FOCUS_SHOWN, SCROLL_WIDTH } from './in-page.ts'

/** How one person goes through a journey: on what screen, in which look where a page has two, and with what. */
export interface Way {
  readonly name: string
  readonly viewport: { readonly width: number; readonly height: number }
  readonly look: 'day' | 'lamp'
  readonly byKeys: boolean
}
const DESKTOP = { width: 1280, height: 900 }
const PHONE = { width: 390, height: 844 }
const LOOKS = ['day', 'lamp'] as const
const byMouse = (look: Way['look']): Way[] => [
  { name: `on a laptop in the ${look} look`, viewport: DESKTOP, look, byKeys: false },
  { name: `on a phone in the ${look} look`, viewport: PHONE, look, byKeys: false },
]
const byKeyboard = (look: Way['look']): Way => ({
  name: `by keyboard alone in the ${look} look`,
  viewport: DESKTOP,
  look,
  byKeys: true,
})

/** For pages of the host, which have the day look alone or are opened in both on the way. */
export const HOST_WAYS: readonly Way[] = [...byMouse('day'), byKeyboard('day')]
/** For pages that the field keeps open in one look. */
export const FIELD_WAYS: readonly Way[] = [...LOOKS.flatMap(byMouse), byKeyboard('lamp')]

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
  readonly faults: string[] = []
  private cdp: CDPSession | undefined

  readonly page: Page
  readonly way: Way

  constructor(page: Page, way: Way) {
    this.page = page
    this.way = way
  }

  async open(address: string): Promise<void> {
    await this.page.goto(address)
    await this.look()
  }

  /** What axe finds, and sideways scrolling, on the page as it stands. */
  async look(): Promise<void> {
    const { pathname, search } = new URL(this.page.url())
    const found = [...(await faultsOf(this.page))]
    const width = await this.page.evaluate<number>(SCROLL_WIDTH)
    if (width > this.way.viewport.width) found.push(`${width} pixels wide`)
    this.faults.push(...found.map((fault) => `${this.way.name}, ${pathname}${search}: ${fault}`))
  }

  /** Follows a link, or sends a form, to the next page, and looks at that. */
  async go(kind: 'link' | 'button', name: string | RegExp, within = 'body'): Promise<void> {
    const next = this.page.waitForEvent('load', { timeout: SLOW_MS })
    await Promise.all([next, this.press(kind, name, within)])
    await this.look()
  }

  async press(kind: 'link' | 'button', name: string | RegExp, within = 'body'): Promise<void> {
    if (!this.way.byKeys) return this.page.locator(within).getByRole(kind, { name, exact: true }).first().click()
    await this.reach(kind, name, within)
    await this.page.keyboard.press('Enter')
  }

  async unfold(name: string): Promise<void> {
    if (!this.way.byKeys) return this.page.click(`summary:text-is("${name}")`)
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
    if (!this.way.byKeys) return this.page.click(`label:text-is("${label}")`)
    await this.reach('radio', /./, 'main')
    for (let arrows = 0; arrows < MOST_ARROWS; arrows++) {
      if (isCalled((await this.focus()).name, label)) return
      await this.page.keyboard.press('ArrowDown')
    }
    throw new Error(`The arrows never come to ${label}`)
  }

  private async kindOfField(label: string): Promise<'textbox' | 'spinbutton'> {
    const isNumber = await this.page.getByRole('spinbutton', { name: label, exact: true }).count()
    return isNumber > 0 ? 'spinbutton' : 'textbox'
  }

  private async reach(
    kind: Kind,
    name: string | RegExp,
    within: string,
    key: 'Tab' | 'Shift+Tab' = 'Tab',
  ): Promise<void> {
    const inside = `document.activeElement?.closest(${JSON.stringify(within)}) != null`
    const isThere = async (): Promise<boolean> => {
      const focus = await this.focus()
      const isIt = focus.role === kind && isCalled(focus.name, name) && (await this.page.evaluate<boolean>(inside))
      const hidden = await this.page.evaluate<string | null>(FOCUS_SHOWN)
      if (hidden !== null) this.faults.push(`${this.page.url()}: the focus is not to be seen at ${hidden}`)
      return isIt
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
