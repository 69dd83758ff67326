/** How many wrong PINs are borne, and how long the wait after more of them grows, in milliseconds. */
export interface TryLimits {
  /** Wrong tries within the window, from whomever, before any further one has to wait. */
  readonly free: number
  readonly windowMs: number
  readonly longestWaitMs: number
}

export const DEFAULT_TRY_LIMITS: TryLimits = { free: 30, windowMs: 60_000, longestWaitMs: 60_000 }

const FIRST_WAIT_MS = 1_000

/** Counts wrong tries: the wait doubles with each one beyond the free ones, and nobody is ever shut out for good. */
export function tryCounter({ free, windowMs, longestWaitMs }: TryLimits, nowMs: () => number) {
  let wrongMs: readonly number[] = []

  return {
    /** Milliseconds until the next try may be made; 0 when it may be made now. */
    waitMs(): number {
      wrongMs = wrongMs.filter((ms) => nowMs() - ms < windowMs)
      const beyond = wrongMs.length - free
      if (beyond < 0) return 0
      const delayMs = Math.min(longestWaitMs, FIRST_WAIT_MS * 2 ** beyond)
      return Math.max(0, (wrongMs.at(-1) ?? 0) + delayMs - nowMs())
    },
    /** Counts a try as wrong until it is proved right: answers how to take it back. */
    begin(): () => void {
      const ms = nowMs()
      wrongMs = [...wrongMs, ms]
      return () => {
        const at = wrongMs.indexOf(ms)
        wrongMs = wrongMs.filter((_, i) => i !== at)
      }
    },
  }
}
