// Marks that wait for the laptop: kept in the phone until the answer says that they are on the disk.
export interface Waiting {
  readonly key: string
  readonly kind: string
  readonly stationId: string
  readonly payload: Record<string, string>
  readonly doneAtMs: number
}

const MOST_AT_ONCE = 50

/** The marks of one night that have not reached the laptop yet, oldest first. */
export function outbox(nightId: string) {
  const shelf = `waiting-${nightId}`

  function all(): Waiting[] {
    try {
      const kept: unknown = JSON.parse(localStorage.getItem(shelf) ?? '[]')
      return Array.isArray(kept) ? kept : []
    } catch {
      return []
    }
  }

  const keep = (marks: readonly Waiting[]): void => localStorage.setItem(shelf, JSON.stringify(marks))

  return {
    count: (): number => all().length,
    add: (mark: Waiting): void => keep([...all(), mark]),

    /** Sends what waits; true when the laptop has kept it, false when it was refused; throws when there was no answer. */
    async send(): Promise<boolean> {
      const sent = all().slice(0, MOST_AT_ONCE)
      if (sent.length === 0) return true
      const marks = sent.map(({ doneAtMs, ...mark }) => ({ ...mark, secondsAgo: secondsSince(doneAtMs) }))
      const response = await fetch(`/api/nights/${nightId}/marks`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ marks }),
      })
      if (response.status >= 500 || response.status === 429) throw new Error('The laptop is busy')
      const keys = new Set(sent.map(({ key }) => key))
      keep(all().filter(({ key }) => !keys.has(key)))
      return response.ok
    },
  }
}

const secondsSince = (atMs: number): number => Math.max(0, (Date.now() - atMs) / 1000)

/** A key that no other mark has; `getRandomValues` is there on plain http, `randomUUID` is not. */
export function newKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(15))
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')
}
