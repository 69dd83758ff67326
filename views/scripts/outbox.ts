// Acts on their way to the laptop: each is kept in the phone before it is sent, until an answer names it, and a while longer.
import { type Held, heldIn, KEPT_MS, type Refused, type Shelf, type Waiting } from './held.ts'

/** An act as it was tapped. */
export interface Act {
  readonly key: string
  readonly kind: string
  readonly stationId: string | null
  readonly payload: Readonly<Record<string, unknown>>
  /** By the phone's clock, of which only differences are ever used. */
  readonly doneAtMs: number
  /** The words of the button that was tapped. */
  readonly text: string
}

/** How a sending ended; named like the page's sentence about it. Only `sent` leaves nothing to see to. */
export type Outcome = 'sent' | 'waiting' | 'failed' | 'joinAgain' | 'address'

export interface Sending {
  readonly outcome: Outcome
  /** How many acts the answer told of. */
  readonly named: number
  /** The night's version after it; null where the laptop did not say. */
  readonly version: string | null
}

interface OutboxNeeds {
  readonly shelf: Shelf
  readonly fetch: (address: string, init: RequestInit) => Promise<Response>
  readonly nowMs: () => number
}

interface Problem {
  readonly field: string
  readonly code: string
  readonly message: string
}
interface Answer {
  readonly kept?: readonly { readonly key: string }[]
  readonly refused?: readonly { readonly key: string | null; readonly problems: readonly Problem[] }[]
  readonly error?: { readonly problems?: readonly Problem[] }
  readonly version?: string
}

const MOST_AT_ONCE = 50
const OLDEST_S = 86_400
const PATIENCE_MS = 8_000
const TURNED_AWAY: Readonly<Record<number, Outcome>> = { 401: 'joinAgain', 403: 'joinAgain', 421: 'address' }

export type Outbox = ReturnType<typeof outbox>

/** The acts of one night that have not reached the laptop yet, those that it refused, and for a while those that it has. */
export function outbox(nightId: string, needs: OutboxNeeds) {
  const { shelf, nowMs } = needs
  const held = heldIn(shelf, nightId, nowMs)

  function sort(sent: readonly Held<Waiting>[], answer: Answer): Sending {
    const { version = null } = answer
    const kept = new Set((answer.kept ?? []).map(({ key }) => key))
    const problems = problemsOf(sent, answer)
    const takenIn = sent.filter(({ key }) => kept.has(key))
    const refused = sent.filter((act) => isRefused(act, problems.get(act.key) ?? [], nowMs()))
    for (const { key } of takenIn) held.turn(key, { is: 'kept', epoch: epochOf(version ?? ''), atMs: nowMs() })
    for (const { key } of refused) held.turn(key, { is: 'refused', reason: reasonOf(problems.get(key) ?? []) })
    const named = takenIn.length + refused.length
    if (held.waiting().length > 0) return { outcome: 'waiting', named, version }
    return { outcome: refused.length > 0 ? 'failed' : 'sent', named, version }
  }

  /** Of a sending that no act was told of; another page of this phone may have brought them in meanwhile. */
  const unnamed = (outcome: Outcome): Sending => ({
    outcome: held.waiting().length === 0 ? 'sent' : outcome,
    named: 0,
    version: null,
  })

  return {
    count: (): number => held.waiting().length,
    /** Keeps an act until the laptop has it; throws when the phone can keep nothing. */
    add: (act: Act): void => held.add(act),
    refused: (): readonly Held<Refused>[] => held.refused(),
    drop: (key: string): void => held.drop(key),

    /** True when all that the laptop has, it took in the run of this version. */
    isOfRun: (version: string): boolean => held.kept().every(({ now }) => now.epoch === epochOf(version)),

    /**
     * Goes by a snapshot of all that the laptop has: what it took in an earlier run and no longer has, since a backup was
     * put back, waits again. Answers how many acts those are.
     */
    offerAgain(version: string, known: ReadonlySet<string>): number {
      const epoch = epochOf(version)
      held.tidy()
      const before = held.kept().filter(({ now }) => now.epoch !== epoch)
      for (const { key, now } of before) {
        held.turn(key, known.has(key) ? { ...now, epoch } : { is: 'waiting', again: true })
      }
      return before.filter(({ key }) => !known.has(key)).length
    },

    /** Sends what waits. Whatever the answer does not name as kept or refused goes on waiting. */
    async send(): Promise<Sending> {
      held.tidy()
      const sent = held.waiting().slice(0, MOST_AT_ONCE)
      if (sent.length === 0) return unnamed('sent')
      try {
        const { status, answer } = await post(nightId, sent, needs)
        return answer === null ? unnamed(TURNED_AWAY[status] ?? 'waiting') : sort(sent, answer)
      } catch {
        return unnamed('waiting')
      }
    },
  }
}

const epochOf = (version: string): string => version.slice(0, version.lastIndexOf('.'))

/** False too for an undo, offered again, of what another phone has not offered again yet: its time may come. */
function isRefused({ now, doneAtMs }: Held<Waiting>, problems: readonly Problem[], nowMs: number): boolean {
  const comesEarly = now.again === true && problems.every(({ code }) => code === 'problem.mark-unknown')
  return problems.length > 0 && !(comesEarly && nowMs - doneAtMs < 2 * KEPT_MS)
}

const reasonOf = (problems: readonly Problem[]): string => problems.map(({ message }) => message).join(' ')

/** Why acts were refused, by key. When nothing was kept, the fields say the place: `marks.3.payload`. */
function problemsOf(sent: readonly Act[], { refused = [], error }: Answer): ReadonlyMap<string, readonly Problem[]> {
  const found = new Map<string, readonly Problem[]>()
  for (const { key, problems } of refused) if (key !== null) found.set(key, problems)
  for (const problem of error?.problems ?? []) {
    const key = sent[Number(/^marks\.(\d+)\./.exec(problem.field)?.[1])]?.key
    if (key !== undefined) found.set(key, [...(found.get(key) ?? []), problem])
  }
  return found
}

/** Sends acts and waits so long for the whole answer; the answer is null where it tells of no act. */
async function post(nightId: string, sent: readonly Act[], { fetch, nowMs }: OutboxNeeds) {
  const marks = sent.map(({ key, kind, stationId, payload, doneAtMs }) => {
    const secondsAgo = Math.min(OLDEST_S, Math.max(0, (nowMs() - doneAtMs) / 1000))
    return { key, kind, stationId, payload, secondsAgo }
  })
  const patience = new AbortController()
  const late = setTimeout(() => patience.abort(), PATIENCE_MS)
  try {
    const response = await fetch(`/api/nights/${nightId}/marks`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ marks }),
      signal: patience.signal,
    })
    const tells = response.ok || response.status === 422
    const answer: Answer | null = tells ? JSON.parse(await response.text()) : null
    return { status: response.status, answer }
  } finally {
    clearTimeout(late)
  }
}

/** A key that no other mark has; `getRandomValues` is there on plain http, `randomUUID` is not. */
export function newKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(15))
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')
}
