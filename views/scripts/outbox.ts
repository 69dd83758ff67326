// Marks that wait for the laptop: kept in the phone until the answer names them as kept.
export interface Waiting {
  readonly key: string
  readonly kind: string
  readonly stationId: string
  readonly payload: Record<string, string>
  readonly doneAtMs: number
  /** The words of the button that was tapped. */
  readonly text: string
}

export interface Refused extends Waiting {
  /** Why the laptop will never take it, in its own words. */
  readonly reason: string
}

/** How a sending ended; named like the page's sentence about it. Only `sent` leaves nothing to see to. */
export type Outcome = 'sent' | 'waiting' | 'failed' | 'signIn' | 'address'

interface Problem {
  readonly field: string
  readonly message: string
}
interface Answer {
  readonly kept?: readonly { readonly key: string }[]
  readonly refused?: readonly { readonly key: string | null; readonly problems: readonly Problem[] }[]
  readonly error?: { readonly problems?: readonly Problem[] }
}

const MOST_AT_ONCE = 50
const OLDEST_S = 86_400
const TURNED_AWAY: Readonly<Record<number, Outcome>> = { 401: 'signIn', 403: 'signIn', 421: 'address' }

/** The marks of one night that have not reached the laptop yet, oldest first, and those that it refused. */
export function outbox(nightId: string) {
  const waiting = shelf<Waiting>(`waiting-${nightId}`)
  const refused = shelf<Refused>(`refused-${nightId}`)

  function sort(sent: readonly Waiting[], answer: Answer): Outcome {
    const kept = new Set((answer.kept ?? []).map(({ key }) => key))
    const reasons = reasonsOf(sent, answer)
    const aside = sent.flatMap((mark) => {
      const reason = reasons.get(mark.key)
      return reason === undefined ? [] : [{ ...mark, reason }]
    })
    // Set apart first: whoever switches off the phone in between has a mark twice and not never.
    if (aside.length > 0) refused.keep([...without(refused.all(), reasons), ...aside])
    waiting.keep(without(without(waiting.all(), kept), reasons))
    if (waiting.all().length > 0) return 'waiting'
    return aside.length > 0 ? 'failed' : 'sent'
  }

  return {
    count: (): number => waiting.all().length,
    add: (mark: Waiting): void => waiting.keep([...waiting.all(), mark]),
    refused: refused.all,
    drop: (key: string): void => refused.keep(without(refused.all(), new Set([key]))),

    /** Sends what waits. Whatever the answer does not name as kept or refused goes on waiting. */
    async send(): Promise<Outcome> {
      const sent = waiting.all().slice(0, MOST_AT_ONCE)
      if (sent.length === 0) return 'sent'
      try {
        const response = await post(nightId, sent)
        const away = TURNED_AWAY[response.status]
        if (away !== undefined) return away
        return response.ok || response.status === 422 ? sort(sent, await response.json()) : 'waiting'
      } catch {
        return 'waiting'
      }
    },
  }
}

function shelf<Thing>(name: string) {
  return {
    all(): readonly Thing[] {
      try {
        const kept: unknown = JSON.parse(localStorage.getItem(name) ?? '[]')
        return Array.isArray(kept) ? kept : []
      } catch {
        return []
      }
    },
    keep: (things: readonly Thing[]): void => localStorage.setItem(name, JSON.stringify(things)),
  }
}

const without = <Thing extends { readonly key: string }>(
  things: readonly Thing[],
  keys: { has(key: string): boolean },
): Thing[] => things.filter(({ key }) => !keys.has(key))

/** Why each refused mark was refused, by its key. When nothing was kept, the fields say the place: `marks.3.payload`. */
function reasonsOf(sent: readonly Waiting[], { refused = [], error }: Answer): Map<string, string> {
  const named = refused.map(({ key, problems }) => [key, problems.map(({ message }) => message).join(' ')] as const)
  const placed = (error?.problems ?? []).map(
    ({ field, message }) => [sent[Number(/^marks\.(\d+)\./.exec(field)?.[1])]?.key, message] as const,
  )
  const known = [...named, ...placed].flatMap(([key, reason]) => (key ? [[key, reason] as const] : []))
  return new Map(known)
}

function post(nightId: string, sent: readonly Waiting[]): Promise<Response> {
  const marks = sent.map(({ doneAtMs, text: _ofTheButton, ...mark }) => ({
    ...mark,
    secondsAgo: secondsSince(doneAtMs),
  }))
  return fetch(`/api/nights/${nightId}/marks`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ marks }),
  })
}

const secondsSince = (atMs: number): number => Math.min(OLDEST_S, Math.max(0, (Date.now() - atMs) / 1000))

/** A key that no other mark has; `getRandomValues` is there on plain http, `randomUUID` is not. */
export function newKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(15))
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')
}
