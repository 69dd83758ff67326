// Times people at a station: starts, shows the seconds, and at the stop sends one act. What runs survives a reload.
import { rootOf } from './current.ts'
import { shelfOf } from './shelf.ts'
import { renewSteadily } from './steady.ts'

const SHOW_MS = 500
const FRESH_MS = 30_000
/** A finger that trembles taps twice: so long everything stays where it was, lest the second tap meet another button. */
const STILL_MS = 700
/** The laptop takes no less and no more. */
const LEAST_SEC = 20
const MOST_SEC = 7_200
/** Stands in the page's sentence where the seconds belong. */
const BLANK = '#'

/** What is there while nothing runs, and what while something does. */
const [RESTING, RUNNING] = [['start'], ['seconds', 'people', 'stop', 'forget']] as const
type Part = (typeof RESTING)[number] | (typeof RUNNING)[number] | 'note'

const name = `timing-${rootOf()?.dataset.field ?? ''}`
/** When the timing of each station began, by this phone's clock. */
let begun = read()
let ended = { stationId: '', atMs: Number.NEGATIVE_INFINITY }

for (const watch of document.querySelectorAll<HTMLElement>('[data-watch]')) watch.hidden = true
show()
setInterval(show, SHOW_MS)
renewSteadily(FRESH_MS)

document.addEventListener('click', ({ target }) => {
  if (!(target instanceof Element)) return
  const form = target.closest<HTMLFormElement>('[data-timing]')
  const button = target.closest('button')
  if (!form || !button) return
  if ('timingStart' in button.dataset) start(form)
  if ('timingForget' in button.dataset) end(form)
})

// In the capturing phase, so that the seconds are there when the outbox reads the form.
document.addEventListener('submit', stop, true)

function start(form: HTMLFormElement): void {
  keep({ ...begun, [stationOf(form)]: Date.now() })
  say(form, '')
  show()
}

function stop(event: Event): void {
  const form = event.target
  if (!(form instanceof HTMLFormElement) || !('timing' in form.dataset)) return
  const beganMs = begun[stationOf(form)]
  const seconds = beganMs === undefined ? 0 : secondsSince(beganMs)
  const field = form.elements.namedItem('seconds')
  if (seconds < LEAST_SEC || seconds > MOST_SEC || !(field instanceof HTMLInputElement)) {
    event.preventDefault()
    event.stopImmediatePropagation()
    if (beganMs !== undefined) say(form, form.dataset.tooShort ?? '')
  } else field.value = String(seconds)
  end(form)
}

function end(form: HTMLFormElement): void {
  const stationId = stationOf(form)
  const { [stationId]: _ended, ...others } = begun
  if (stationId in begun) ended = { stationId, atMs: performance.now() }
  keep(others)
  show()
  setTimeout(show, STILL_MS)
}

/** Shows every form of a timing as it stands now. */
function show(): void {
  for (const form of document.querySelectorAll<HTMLFormElement>('[data-timing]')) {
    const beganMs = begun[stationOf(form)]
    const isRunning = beganMs !== undefined || isStill(form)
    form.hidden = false
    for (const part of [...RESTING, ...RUNNING]) {
      const element = partOf(form, part)
      if (element) element.hidden = isRunning === (part === 'start')
    }
    const seconds = partOf(form, 'seconds')
    if (seconds && beganMs !== undefined)
      seconds.textContent = (form.dataset.running ?? '').replace(BLANK, String(secondsSince(beganMs)))
  }
}

function isStill(form: HTMLFormElement): boolean {
  return stationOf(form) === ended.stationId && performance.now() - ended.atMs < STILL_MS
}

function say(form: HTMLFormElement, text: string): void {
  const note = partOf(form, 'note')
  if (note) note.textContent = text
}

function partOf(form: HTMLFormElement, part: Part): HTMLElement | null {
  return form.querySelector<HTMLElement>(`[data-timing-${part}]`)
}

function stationOf(form: HTMLFormElement): string {
  return form.dataset.timing ?? ''
}

function secondsSince(ms: number): number {
  return Math.max(0, Math.round((Date.now() - ms) / 1000))
}

function keep(now: Readonly<Record<string, number>>): void {
  begun = now
  try {
    shelfOf()?.setItem(name, JSON.stringify(now))
  } catch {
    // A full phone times on until it is reloaded.
  }
}

function read(): Readonly<Record<string, number>> {
  try {
    const kept: Record<string, unknown> = JSON.parse(shelfOf()?.getItem(name) ?? '{}') ?? {}
    return Object.fromEntries(
      Object.entries(kept).flatMap(([id, ms]) => (typeof ms === 'number' ? [[id, ms] as const] : [])),
    )
  } catch {
    return {}
  }
}
