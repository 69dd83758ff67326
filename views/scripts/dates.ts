// Fetches a year anew while months of it are still being worked out, and unfolds the month that was asked for. Without this script a link and a tap do the same.
import { renew } from './renew.ts'

const PACE_MS = 700

const unfinished = (): HTMLElement | null => document.querySelector<HTMLElement>('[data-dates][data-unfinished]')

async function look(): Promise<void> {
  const response = await fetch(location.href).catch(() => null)
  if (response?.ok) {
    const page = new DOMParser().parseFromString(await response.text(), 'text/html')
    const [old, fresh] = [unfinished(), page.querySelector('[data-dates]')]
    if (old && fresh) renew(old, fresh)
  }
  later()
}

function later(): void {
  if (unfinished()) setTimeout(look, PACE_MS)
}

/** The name of a month in the year leads to its nights, which are folded. */
function unfold(): void {
  const month = document.getElementById(location.hash.slice(1))
  if (month instanceof HTMLDetailsElement) month.open = true
}

later()
window.addEventListener('hashchange', unfold)
unfold()
