// Keeps the visitors' page current, and in this phone alone what its owner has seen. Without this script a reload does the first.
import { keepCurrent, rootOf } from './current.ts'
import { shelfOf } from './shelf.ts'
import { renewSteadily } from './steady.ts'

/** Hundreds of phones look at this page: they may be a little late, and never all at once. */
const PACE_MS = 15_000
const FRESH_MS = 60_000
/** Stand in the page's sentences where the number and the names of things belong. */
const [NUMBER, THINGS] = ['#', '~']

/** What was seen, oldest first: its key and what it is called. */
type Seen = readonly (readonly [key: string, name: string])[]

const root = rootOf()
const shelfName = `seen-${root?.dataset.field ?? ''}`
let seen = read()

if (root) {
  keepCurrent({ paceMs: PACE_MS, since: root.dataset.version ?? null })
  renewSteadily(FRESH_MS)
  // A thing that comes to a telescope brings a button that knows nothing of this phone yet.
  new MutationObserver(show).observe(root, { subtree: true, childList: true, attributeFilter: ['hidden'] })
  document.addEventListener('click', tapped)
  show()
}

function tapped({ target }: Event): void {
  const button = target instanceof Element ? target.closest('button') : null
  const { seen: key, name = '' } = button?.dataset ?? {}
  if (key !== undefined) keep(isSeen(key) ? seen.filter(([other]) => other !== key) : [...seen, [key, name]])
  else if (button && 'seenForget' in button.dataset) keep([])
}

function isSeen(wanted: string): boolean {
  return seen.some(([key]) => key === wanted)
}

function keep(now: Seen): void {
  seen = now
  try {
    shelfOf()?.setItem(shelfName, JSON.stringify(now))
  } catch {
    // A full phone keeps the list while the page is open.
  }
  show()
}

/** Shows what was seen on every button and in the list, and sends nobody there again. */
function show(): void {
  for (const button of document.querySelectorAll<HTMLButtonElement>('[data-seen]')) {
    const { seen: key = '', tick = '', ticked = '' } = button.dataset
    hide(button, false)
    button.toggleAttribute('data-is-seen', isSeen(key))
    write(button, isSeen(key) ? ticked : tick)
  }
  for (const way of document.querySelectorAll<HTMLElement>('[data-first]')) hide(way, isSeen(way.dataset.first ?? ''))
  const list = document.querySelector<HTMLElement>('[data-seen-list]')
  const text = list?.querySelector('[data-seen-text]')
  if (!list || !text) return
  const sentence = (seen.length === 1 ? list.dataset.one : list.dataset.many) ?? ''
  hide(list, seen.length === 0)
  write(
    text,
    sentence.replace(NUMBER, String(seen.length)).replace(THINGS, () => seen.map(([, name]) => name).join(', ')),
  )
}

/** Like `write`, changes only what is otherwise, since every change is looked at again. */
function hide(element: HTMLElement, isHidden: boolean): void {
  if (element.hidden !== isHidden) element.hidden = isHidden
}

function write(element: Element, text: string): void {
  if (element.textContent !== text) element.textContent = text
}

function read(): Seen {
  try {
    const kept: unknown = JSON.parse(shelfOf()?.getItem(shelfName) ?? '[]')
    return Array.isArray(kept) ? kept.filter(isPair) : []
  } catch {
    return []
  }
}

function isPair(item: unknown): item is readonly [string, string] {
  return Array.isArray(item) && item.length === 2 && item.every((part) => typeof part === 'string')
}
