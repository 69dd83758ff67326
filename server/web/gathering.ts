/** How long the news of a busy moment is gathered, so that forty acts at once are not told to five hundred pages one by one. */
const GATHER_MS = 100

/** Tells the news of each night together, a moment after the first of them. */
export function gathering<Event>(send: (nightId: string, event: Event) => void) {
  const due = new Map<string, { readonly make: () => Event | null; readonly timer: NodeJS.Timeout }>()

  function now(nightId: string): void {
    const waiting = due.get(nightId)
    if (!waiting) return
    clearTimeout(waiting.timer)
    due.delete(nightId)
    try {
      const event = waiting.make()
      if (event !== null) send(nightId, event)
    } catch (error) {
      console.error('The open pages could not be told:', error)
    }
  }

  return {
    /** Has an event made and sent in a moment, and no other until then; it may turn out that there is none. */
    soon(nightId: string, make: () => Event | null): void {
      if (due.has(nightId)) return
      due.set(nightId, { make, timer: setTimeout(now, GATHER_MS, nightId).unref() })
    },
    /** Tells now what waits to be told of a night. */
    now,
    /** Forgets all that waits. */
    close(): void {
      for (const { timer } of due.values()) clearTimeout(timer)
      due.clear()
    },
  }
}
