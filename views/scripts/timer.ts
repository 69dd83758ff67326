/** One timer that is either waiting or not. */
export function timer() {
  let running: ReturnType<typeof setTimeout> | undefined
  function stop(): void {
    clearTimeout(running)
    running = undefined
  }
  function start(ms: number, run: () => void): void {
    stop()
    running = setTimeout(() => {
      running = undefined
      run()
    }, ms)
  }
  return {
    stop,
    start,
    /** Runs something now and then again after each of the waits, until it is stopped; once begun, it is not begun anew. */
    repeat(waitMs: () => number, run: () => void): void {
      if (running !== undefined) return
      const next = (): void => {
        start(waitMs(), next)
        run()
      }
      next()
    },
  }
}
