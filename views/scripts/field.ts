// Posts marks without leaving the page, so that the screen never flashes and a lost connection loses nothing.
import { newKey, outbox } from './outbox.ts'

const RETRY_MS = 5_000
const FRESH_MS = 30_000
const SECOND_TAP_MS = 600

const page = () => document.querySelector<HTMLElement>('[data-field]')
const nightId = page()?.dataset.field
const box = nightId === undefined ? undefined : outbox(nightId)
let tappedAtMs = 0

if (box) {
  document.addEventListener('submit', (event) => {
    const form = event.target
    if (!(form instanceof HTMLFormElement) || !('act' in form.dataset)) return
    event.preventDefault()
    if (Date.now() - tappedAtMs < SECOND_TAP_MS) return
    tappedAtMs = Date.now()
    take(form)
  })
  setInterval(() => box.count() > 0 && deliver(), RETRY_MS)
  setInterval(() => !document.hidden && box.count() === 0 && refresh(), FRESH_MS)
  addEventListener('online', () => deliver())
  addEventListener('beforeunload', (event) => {
    if (box.count() > 0) event.preventDefault()
  })
  if (box.count() > 0) deliver()
}

function take(form: HTMLFormElement): void {
  const fields = Object.fromEntries([...new FormData(form)].map(([name, value]) => [name, String(value)]))
  const { key: _ofTheForm, kind = '', ...payload } = fields
  box?.add({ key: newKey(), kind, stationId: page()?.dataset.station ?? '', payload, doneAtMs: Date.now() })
  deliver()
}

async function deliver(): Promise<void> {
  try {
    const isKept = await box?.send()
    await refresh()
    say(isKept ? 'sent' : 'failed')
  } catch {
    say('waiting')
  }
}

function say(what: 'sent' | 'waiting' | 'failed'): void {
  const line = document.querySelector('[data-status]')
  if (line) line.textContent = page()?.dataset[what] ?? ''
}

async function refresh(): Promise<void> {
  const response = await fetch(location.href).catch(() => null)
  if (!response?.ok) return
  const parsed = new DOMParser().parseFromString(await response.text(), 'text/html')
  const fresh = parsed.querySelector('[data-field]')
  if (fresh) page()?.replaceWith(fresh)
}
