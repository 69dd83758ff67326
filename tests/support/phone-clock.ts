/** Long enough for what failed out of reach to have been dealt with before the next timer runs. */
const TURNS_BETWEEN_TIMERS = 12

/** The clock of one phone: it runs as any other, and a test may let it jump. Its timers run when it is looked at. */
export function phoneClock() {
  let aheadMs = 0
  let lastId = 0
  const timers = new Map<number, { readonly atMs: number; readonly run: () => void }>()
  const nowMs = (): number => performance.now() + aheadMs

  function nextBefore(ms: number): { readonly id: number; readonly atMs: number } | null {
    let next: { readonly id: number; readonly atMs: number } | null = null
    for (const [id, { atMs }] of timers) if (atMs <= ms && (next === null || atMs < next.atMs)) next = { id, atMs }
    return next
  }

  function runOne(id: number): void {
    const timer = timers.get(id)
    timers.delete(id)
    timer?.run()
  }

  /** Runs what is due. */
  function look(): void {
    for (const [id, { atMs }] of [...timers]) if (atMs <= nowMs()) runOne(id)
  }

  return {
    nowMs,
    look,
    setTimeout(run: () => void, ms: number): number {
      timers.set(++lastId, { run, atMs: nowMs() + ms })
      return lastId
    },
    clearTimeout: (id: number | undefined): void => void timers.delete(id ?? 0),

    /** Lets time pass for a phone that sleeps in a pocket: what has come due meanwhile runs once, at the end. */
    sleep(ms: number): void {
      aheadMs += ms
      look()
    },

    /** Lets time pass for a phone that is awake: every timer runs at its own moment. */
    async pass(ms: number): Promise<void> {
      const endMs = nowMs() + ms
      for (let next = nextBefore(endMs); next !== null; next = nextBefore(endMs)) {
        aheadMs += Math.max(0, next.atMs - nowMs())
        runOne(next.id)
        for (let turn = 0; turn < TURNS_BETWEEN_TIMERS; turn++) await null
      }
      aheadMs += Math.max(0, endMs - nowMs())
    },
  }
}
