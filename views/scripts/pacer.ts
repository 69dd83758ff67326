// Runs one thing at a time, not more often than every so often, and once more when it failed.
const TRY_AGAIN_MS = 5_000

export function pacer(paceMs: number, run: () => Promise<void>) {
  let waiting: ReturnType<typeof setTimeout> | undefined
  let dueAtMs = Number.POSITIVE_INFINITY
  let begunAtMs = Number.NEGATIVE_INFINITY
  let isRunning = false
  let isWanted = false

  async function begin(): Promise<void> {
    dueAtMs = Number.POSITIVE_INFINITY
    if (document.hidden) return
    isRunning = true
    isWanted = false
    begunAtMs = performance.now()
    const isDone = await run().then(
      () => true,
      () => false,
    )
    isRunning = false
    if (isWanted || !isDone) want(isDone ? 0 : TRY_AGAIN_MS)
  }

  /** Asks for it in so many milliseconds, or later where the pace wants it; an earlier asking is not put off. */
  function want(ms: number): void {
    isWanted = true
    const atMs = Math.max(performance.now() + ms, begunAtMs + paceMs)
    if (isRunning || atMs >= dueAtMs) return
    dueAtMs = atMs
    clearTimeout(waiting)
    waiting = setTimeout(begin, atMs - performance.now())
  }
  return { want }
}
