// Posts marks without leaving the page, so that the screen never flashes and a lost connection loses nothing.
import { newKey, type Outcome, outbox, type Refused } from './outbox.ts'

const RETRY_MS = 5_000
const FRESH_MS = 30_000
const SECOND_TAP_MS = 600
/** Stands in the page's sentences where the number of taps or the words of one belong. */
const BLANK = '#'

const page = () => document.querySelector<HTMLElement>('[data-field]')
const nightId = page()?.dataset.field
const box = nightId === undefined ? undefined : outbox(nightId)
let tappedAtMs = 0
let last: Outcome = 'sent'

if (box) {
  document.addEventListener('submit', (event) => {
    const form = event.target
    if (!(form instanceof HTMLFormElement) || !('act' in form.dataset)) return
    const isSecondTap = Date.now() - tappedAtMs < SECOND_TAP_MS
    tappedAtMs = isSecondTap ? tappedAtMs : Date.now()
    // A phone that keeps nothing lets the form go its plain way.
    if (isSecondTap || take(form)) event.preventDefault()
  })
  setInterval(() => box.count() > 0 && deliver(), RETRY_MS)
  setInterval(() => !document.hidden && box.count() === 0 && refresh(), FRESH_MS)
  addEventListener('online', () => deliver())
  addEventListener('beforeunload', (event) => {
    if (box.count() > 0 && last !== 'signIn') event.preventDefault()
  })
  listRefused()
  if (box.count() > 0) deliver()
}

/** Keeps the tap in the phone and sends it; false when the phone cannot keep it. */
function take(form: HTMLFormElement): boolean {
  const fields = Object.fromEntries([...new FormData(form)].map(([name, value]) => [name, String(value)]))
  const { key: _ofTheForm, kind = '', ...payload } = fields
  const text = form.querySelector('button')?.textContent ?? kind
  try {
    box?.add({ key: newKey(), kind, stationId: page()?.dataset.station ?? '', payload, doneAtMs: Date.now(), text })
  } catch {
    return false
  }
  deliver()
  return true
}

async function deliver(): Promise<void> {
  last = (await box?.send()) ?? 'sent'
  await refresh()
  say(last)
}

function say(outcome: Outcome): void {
  const line = document.querySelector('[data-status]')
  if (!line) return
  line.textContent = (page()?.dataset[outcome] ?? '').replace(BLANK, String(box?.count() ?? 0))
  if (outcome === 'signIn') line.append(' ', signInLink())
}

function signInLink(): HTMLAnchorElement {
  const link = document.createElement('a')
  link.href = `/sign-in?back=${encodeURIComponent(location.pathname)}`
  link.textContent = page()?.dataset.signInLink ?? ''
  return link
}

async function refresh(): Promise<void> {
  const response = await fetch(location.href).catch(() => null)
  if (!response?.ok) return listRefused()
  const parsed = new DOMParser().parseFromString(await response.text(), 'text/html')
  const fresh = parsed.querySelector('[data-field]')
  if (fresh) page()?.replaceWith(fresh)
  listRefused()
}

/** Shows each act that the laptop refused, why, and a button that gives it up. */
function listRefused(): void {
  const section = document.querySelector<HTMLElement>('[data-refused]')
  const acts = box?.refused() ?? []
  if (!section) return
  section.hidden = acts.length === 0
  section.querySelector('ul')?.replaceChildren(...acts.map((act) => refusedLine(act, section.dataset.drop ?? '')))
}

function refusedLine({ key, text, reason }: Refused, drop: string): HTMLLIElement {
  const line = document.createElement('li')
  const button = document.createElement('button')
  button.textContent = drop.replace(BLANK, () => text)
  button.addEventListener('click', () => {
    box?.drop(key)
    listRefused()
  })
  line.append(`${text}. ${reason}`, button)
  return line
}
