// Keeps a page of the field as the night is: told by the line, fetched anew, and put in place without a flash.
import { msToNext } from './evening.ts'
import { type Change, lineTo } from './live.ts'
import { pacer } from './pacer.ts'
import { planBanner } from './plan.ts'
import { renew } from './renew.ts'
import { quiet } from './touch.ts'

interface CurrentNeeds {
  /** The least time between two fetchings, in milliseconds. */
  readonly paceMs: number
  /** The version from which on the page wants to be told; null for all of the night. */
  readonly since: string | null
  readonly told?: (change: Change) => void
}

const PATIENCE_MS = 8_000
const JITTER_MS = 3_000
const TURN_AGAIN_MS = 60_000
const UNFINISHED_MS = 2_000

export const rootOf = (): HTMLElement | null => document.querySelector<HTMLElement>('[data-field]')

/** Keeps the page current from now on; answers how to say that the night has reached another version. */
export function keepCurrent({ paceMs, since, told }: CurrentNeeds): (version: string) => void {
  const nightId = rootOf()?.dataset.field ?? ''
  const sayPlan = planBanner(rootOf)
  const fetching = pacer(paceMs, fetchPage)
  let shown = rootOf()?.dataset.version ?? null
  let newest = shown
  let known: Partial<Change> = {}
  let turning: ReturnType<typeof setTimeout> | undefined

  const line = lineTo(nightId, {
    open: (address) => new EventSource(address),
    ask: async (address) => JSON.parse(await textOf(address)),
    random: Math.random,
    version: since,
    told: hear,
  })

  function hear(change: Change): void {
    newest = change.version
    known = { ...known, ...change }
    told?.(change)
    const tour = rootOf()?.dataset.tourVersion
    const isOtherTour =
      tour !== undefined && change.tourVersion !== undefined && Number(tour) !== (change.tourVersion ?? 0)
    if (newest !== shown || change.isProgramme || isOtherTour) fetching.want(Math.random() * (paceMs / 2))
    if (change.field) turn(msToNext(known))
  }

  function turn(ms: number | null): void {
    clearTimeout(turning)
    if (ms === null) return
    turning = setTimeout(
      () => {
        turn(TURN_AGAIN_MS)
        line.ask()
        fetching.want(0)
      },
      ms + Math.random() * JITTER_MS,
    )
  }

  async function fetchPage(): Promise<void> {
    const asked = newest
    const page = new DOMParser().parseFromString(await textOf(location.href), 'text/html')
    const fresh = page.querySelector<HTMLElement>('[data-field]')
    const root = rootOf()
    if (!root || !fresh) return
    await quiet()
    renew(root, fresh)
    shown = fresh.dataset.version ?? asked
    sayPlan()
    finish()
  }

  /** What the laptop was still working out is there a moment later. */
  function finish(): void {
    const isThere = !rootOf()?.querySelector('[data-unfinished]')
    if (!isThere) setTimeout(() => fetching.want(0), UNFINISHED_MS * (1 + Math.random()))
  }

  function wake(): void {
    line.open()
    fetching.want(0)
  }
  function rest(): void {
    clearTimeout(turning)
    line.shut()
  }
  document.addEventListener('visibilitychange', () => (document.hidden ? rest() : wake()))
  addEventListener('pagehide', rest)
  addEventListener('pageshow', ({ persisted }) => persisted && wake())
  addEventListener('online', line.retry)
  if (!document.hidden) line.open()
  finish()

  return (version) => {
    newest = version
    if (newest !== shown) fetching.want(0)
  }
}

/** What an address answers; fails when that is nothing, or comes late. */
async function textOf(address: string): Promise<string> {
  const patience = new AbortController()
  const late = setTimeout(() => patience.abort(), PATIENCE_MS)
  try {
    const response = await fetch(address, { signal: patience.signal })
    if (!response.ok) throw new Error(`Answered ${response.status}`)
    return await response.text()
  } finally {
    clearTimeout(late)
  }
}
