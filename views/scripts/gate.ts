// Counts on at once what is tapped at the gate, before the laptop answers: whoever counts without it must see the number move.
import { rootOf } from './current.ts'
import { heldIn } from './held.ts'
import { shelfOf } from './shelf.ts'

const SORTS = ['adults', 'children'] as const
const LOOK_MS = 500
/** So long after a tap or its delivery the page may still be the one of before. */
const SETTLES_MS = 3_000

const shelf = shelfOf()
const held = shelf && heldIn(shelf, rootOf()?.dataset.field ?? '', Date.now)
let busyAtMs = Number.NEGATIVE_INFINITY

document.addEventListener('submit', (event) => {
  const form = event.target
  // A tap that the outbox has not taken goes its plain way and comes back with the page.
  if (!(form instanceof HTMLFormElement) || !('gate' in form.dataset) || !event.defaultPrevented) return
  busyAtMs = performance.now()
  const fields = new FormData(form)
  for (const sort of SORTS) {
    const shown = shownOf(sort)
    if (shown) shown.textContent = String(Math.max(0, Number(shown.textContent) + Number(fields.get(sort) ?? 0)))
  }
})
setInterval(settle, LOOK_MS)

/** Goes by the laptop's numbers once it has every tap of this phone, and the page knows of them. */
function settle(): void {
  if (held?.waiting().some(({ kind }) => kind === 'counted')) busyAtMs = performance.now()
  if (performance.now() - busyAtMs < SETTLES_MS) return
  for (const sort of SORTS) {
    const shown = shownOf(sort)
    const counted = shown?.parentElement?.dataset.counted
    if (shown && counted !== undefined && shown.textContent !== counted) shown.textContent = counted
  }
}

function shownOf(sort: (typeof SORTS)[number]): HTMLElement | null {
  return document.querySelector<HTMLElement>(`[data-count="${sort}"]`)
}
