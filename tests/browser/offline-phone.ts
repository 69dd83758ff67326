import type { BrowserContext, Page } from 'playwright-core'
import type { FieldService } from './offline-service.ts'

/** What scripts say of the sending, and the folds that the laptop fills when it has worked out what is in them. */
const NOT_COMPARED = '[data-status], [data-refused], #about, #else, #slip'
const KINDS = ['showing', 'shown', 'skipped', 'seen', 'trouble', 'undo']

/** A phone with the page of a station open, whose clock a test may move. */
export class FieldPhone {
  readonly context: BrowserContext
  private readonly address: string
  private open: Page | undefined

  private constructor(context: BrowserContext, address: string) {
    this.context = context
    this.address = address
  }

  static async join(service: FieldService, context: BrowserContext, name: string): Promise<FieldPhone> {
    await service.join(context, name)
    const phone = new FieldPhone(context, service.stationPage())
    await phone.openPage()
    return phone
  }

  get page(): Page {
    if (!this.open) throw new Error('The phone has no page')
    return this.open
  }

  /** Opens the page of the station anew, in place of what was open. */
  async openPage(): Promise<void> {
    await this.open?.close()
    this.open = await this.context.newPage()
    this.open.on('dialog', (dialog) => dialog.accept())
    await this.open.clock.install()
    await this.open.goto(this.address)
  }

  /** Lets time pass, by the phone's own clock. */
  pass = (ms: number): Promise<void> => this.page.clock.fastForward(ms)

  /** Taps one of the acts of the page, by a number from 0 to below 1; answers the words of its button. */
  async tap(chance: number): Promise<string> {
    // Two taps in quick succession count as one.
    await this.pass(1_000)
    return this.page.evaluate(tapScript(chance))
  }

  /** What the page says of the night, and the version that it was made at. */
  said = (): Promise<string> => this.page.evaluate(SAID).then(String)

  /** What the phone has not seen kept. */
  waiting = (): Promise<unknown> => this.page.evaluate(WAITING)

  status = (): Promise<string | null> => this.page.textContent('[data-status]')
}

const tapScript = (chance: number): string => `(() => {
  const kinds = ${JSON.stringify(KINDS)}
  const forms = [...document.querySelectorAll('form[data-act]')].filter((form) => kinds.includes(form.elements.kind.value))
  const button = forms[Math.floor(${chance} * forms.length)].querySelector('button')
  button.click()
  return button.textContent
})()`

const SAID = `(() => {
  const root = document.querySelector('[data-field]')
  if (!root) return ''
  const copy = root.cloneNode(true)
  for (const own of copy.querySelectorAll(${JSON.stringify(NOT_COMPARED)})) own.remove()
  return root.dataset.version + ' ' + copy.textContent.replace(/\\s+/g, ' ')
})()`

const WAITING = `Object.values(localStorage).filter((text) => /"is":"(waiting|refused)"/.test(text))`
