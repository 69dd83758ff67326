// Takes the taps of a page into the outbox, so that the screen never flashes and a lost connection loses nothing.
import { actOf } from './act.ts'
import { keepCurrent, rootOf } from './current.ts'
import { delivery } from './delivery.ts'
import type { Change } from './live.ts'
import { newKey, type Outbox, type Outcome, outbox, type Sending } from './outbox.ts'
import { listRefused, say } from './sending.ts'
import { shelfOf } from './shelf.ts'

const SECOND_TAP_MS = 600
/** A network that comes back comes back for all phones. */
const JITTER_MS = 1_000

/** Keeps a page of the field current, at most every so many milliseconds, and brings the taps of this phone to the laptop. */
export function runPage(paceMs: number): void {
  const root = rootOf()
  const shelf = shelfOf()
  if (!root) return
  const version = root.dataset.version ?? null
  if (shelf === null) {
    keepCurrent({ paceMs, since: version })
    return
  }
  const needs = { shelf, fetch: (address: string, init: RequestInit) => fetch(address, init), nowMs: Date.now }
  takeTaps(outbox(root.dataset.field ?? '', needs), version, paceMs)
}

function takeTaps(box: Outbox, version: string | null, paceMs: number): void {
  let last: Outcome = 'sent'
  const later = (ms: number, run: () => Promise<void>) => {
    const timer = setTimeout(run, ms)
    return () => clearTimeout(timer)
  }
  const { deliver, deliverAfresh } = delivery(box, { random: Math.random, later, told })
  // What an earlier run of the laptop took is looked for in all that it has now.
  const since = version !== null && box.isOfRun(version) ? version : null
  const reached = keepCurrent({ paceMs, since, told: hear })

  function told({ outcome, version }: Sending): void {
    last = outcome
    say(outcome, box.count())
    listRefused(box)
    if (version !== null) reached(version)
  }

  function hear({ version, isSnapshot, marks = [] }: Change): void {
    // What the line tells first, or when asked, tells also that the laptop is in reach.
    if (isSnapshot === undefined) return
    if (isSnapshot) box.offerAgain(version, new Set(marks.map(({ key }) => key)))
    deliverAfresh()
  }

  document.addEventListener('submit', (event) => {
    const form = event.target
    if (!(form instanceof HTMLFormElement) || !('act' in form.dataset)) return
    // A phone that keeps nothing lets the form go its plain way.
    if (isSecondTap(form) || take(box, form, event.submitter)) event.preventDefault()
    deliver()
  })
  addEventListener('online', () => later(Math.random() * JITTER_MS, deliverAfresh))
  document.addEventListener('visibilitychange', () => document.hidden || deliverAfresh())
  addEventListener('storage', () => {
    listRefused(box)
    // Another page of this phone has brought them in.
    if (last === 'waiting' && box.count() === 0) told({ outcome: 'sent', named: 0, version: null })
  })
  addEventListener('beforeunload', (event) => {
    if (box.count() > 0 && last !== 'joinAgain') event.preventDefault()
  })
  listRefused(box)
  if (box.count() > 0) say('waiting', box.count())
  deliver()
}

let tappedAtMs = Number.NEGATIVE_INFINITY

/** A finger that trembles taps twice; a form for taps in quick succession says so. */
function isSecondTap(form: HTMLFormElement): boolean {
  if ('often' in form.dataset) return false
  const isSecond = performance.now() - tappedAtMs < SECOND_TAP_MS
  if (!isSecond) tappedAtMs = performance.now()
  return isSecond
}

/** Keeps the tap in the phone; false when the phone cannot keep it. */
function take(box: Outbox, form: HTMLFormElement, submitter: HTMLElement | null): boolean {
  const fields = [...new FormData(form)].map(([name, value]) => [name, String(value)] as const)
  const button = submitter instanceof HTMLButtonElement ? submitter : form.querySelector('button')
  const pressed = button?.name ? [[button.name, button.value] as const] : []
  const { kind, stationId, payload } = actOf([...fields, ...pressed])
  const ofThePage = rootOf()?.dataset.station || null
  const text = button?.textContent?.trim() || kind
  try {
    box.add({
      key: newKey(),
      kind,
      stationId: stationId === undefined ? ofThePage : stationId,
      payload,
      doneAtMs: Date.now(),
      text,
    })
  } catch {
    return false
  }
  form.reset()
  say('taken', box.count(), text)
  return true
}
